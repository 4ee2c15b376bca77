import { SetsideError } from '../base/index.ts';

/** Codes this room raises beside those of `develop` (`raw-*`) and of the system (`ENOENT`, `ENOSPC` …). */
export const workerErrors = {
  /** A raster original that its codec cannot read. */
  'picture-cannot-decode': 'The picture cannot be decoded.',
  /** More pixels or bytes than the bounds allow. */
  'picture-too-large': 'The picture is larger than this station renders.',
  /** Asked to treat raw data as a finished picture: its embedded preview would be taken for it. */
  'picture-is-raw': 'The file is a raw file, not a finished picture.',
  /** The result would take the original's place: another folder or format is needed. */
  'output-is-original': 'The result would replace the original itself.',
  /** Something lies under the result's name already, and replacing it was not asked for. */
  'output-exists': 'A file of that name is there already.',
  /** Neither a picture nor raw data of any kind. */
  'not-a-picture': 'The file is no picture.',
  /** Linear data was asked of a finished picture, which has none. */
  'picture-not-raw': 'The file is a finished picture: there is no raw data in it.',
  /** Not a byte in it. */
  'file-empty': 'The file is empty.',
  /** An ICC profile that no picture can be written in. */
  'bad-profile': 'The ICC profile cannot be used.',
  /** At the least quality that was allowed the file still has more bytes than it may. */
  'delivery-too-large': 'The file cannot be made as small as was asked for.',
  /** Opened again, a file is not what was written. */
  'delivery-not-as-written': 'The file that was written cannot be read again as it should be.',
  /** The worker thread died while it did the job; the job was not repeated. */
  'worker-crashed': 'The worker died while it did this job.',
  /** The job took longer than its bound; its worker was ended. */
  'worker-too-slow': 'The job took too long and was ended.',
  /** Whoever asked for the picture wants it no longer. */
  'worker-called-off': 'The picture is not wanted any more.',
  /** The pool was closed before the job was done. */
  'worker-pool-closed': 'The workers were shut down before this job was done.',
} as const;

export type WorkerErrorCode = keyof typeof workerErrors;

export function workerError(
  code: WorkerErrorCode,
  details: Record<string, string | number> = {},
  cause?: unknown,
): SetsideError {
  return new SetsideError(code, workerErrors[code], { details, cause });
}

export function outputExists(path: string, cause?: unknown): SetsideError {
  return new SetsideError('output-exists', `${path} is there already`, {
    details: { path },
    cause,
    cure: 'Give another folder with --out, or replace it with --replace.',
  });
}

/** `why` is the whole sentence. */
export function badProfile(why: string): SetsideError {
  return new SetsideError('bad-profile', why, {
    cure: 'Give an ICC profile of a display, a printer or a colour space, for RGB or grey.',
  });
}
