import { mkdir, open, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import type { RgbSpaceName } from '../colour/index.ts';
import { inspectArrived, SparseSource } from '../formats/index.ts';
import type { Look } from '../look/index.ts';
import type { DevelopPool } from './develop-pool.ts';
import { workerError } from './errors.ts';
import type { PictureFormat, RenderAnswer, RenderJob } from './messages.ts';

export interface DevelopFileOptions {
  readonly pool: DevelopPool;
  /** Folder for the result; made where it is missing. */
  readonly outDir: string;
  readonly size: RenderJob['size'];
  /** `tiff-linear`: 16 bits, linear, no look, at half size unless `size` is `full`; `look` is not used. */
  readonly format: PictureFormat | 'tiff-linear';
  readonly look: Look | null;
  /** Colour space of `tiff-linear`. Default `rec2020`, which holds what a camera sees. */
  readonly space?: RgbSpaceName;
  readonly signal?: AbortSignal;
}

export interface DevelopedFile extends RenderAnswer {
  readonly path: string;
  readonly outPath: string;
  readonly kind: 'raw' | 'raster';
}

/**
 * Develops one file without a station: the result lies in `outDir` under the original's name with the format's
 * extension, in place of whatever lay there before. What the file is, its content decides.
 * Errors: `output-is-original`, and those of `DevelopPool`.
 */
export async function developFile(path: string, options: DevelopFileOptions): Promise<DevelopedFile> {
  const { pool, format, signal } = options;
  await mkdir(options.outDir, { recursive: true });
  const outPath = join(options.outDir, resultName(path, format));
  if (await isSameFile(path, outPath)) throw workerError('output-is-original', { path });
  if (format === 'tiff-linear') {
    const answer = await pool.linear(
      { path, space: options.space ?? 'rec2020', size: options.size === 'full' ? 'full' : 'half', outPath },
      signal,
    );
    return { ...answer, path, outPath, kind: 'raw' };
  }
  const kind = await kindOfFile(path);
  // Only raws take a look; asking for one on a camera's JPEG would be answered with a remark each time.
  const look = kind === 'raw' ? options.look : null;
  const answer = await pool.render({ path, kind, look, size: options.size, format, outPath }, signal);
  return { ...answer, path, outPath, kind };
}

/** Name of the file that {@link developFile} writes for an original. */
export function resultName(path: string, format: DevelopFileOptions['format']): string {
  return basename(path, extname(path)) + extensions[format];
}

const extensions: Readonly<Record<PictureFormat | 'tiff-linear', string>> = {
  jpeg: '.jpg',
  webp: '.webp',
  png: '.png',
  'tiff-linear': '.tif',
};

/** Only the directories are read: a raw format built on TIFF is told from a TIFF picture by them, wherever they lie. */
async function kindOfFile(path: string): Promise<'raw' | 'raster'> {
  const file = await open(path, 'r');
  try {
    const source = new SparseSource();
    source.grow((await file.stat()).size);
    source.end();
    const { kind } = await inspectArrived(source, async ({ offset, length }) => {
      const { bytesRead, buffer } = await file.read(new Uint8Array(length), 0, length, offset);
      return bytesRead === length ? buffer : null;
    });
    return kind === 'jpeg' || kind === 'png' || kind === 'webp' || kind === 'tiff' ? 'raster' : 'raw';
  } finally {
    await file.close();
  }
}

/** Whether both names lead to one file, through links and on file systems that do not tell case apart too. */
async function isSameFile(path: string, outPath: string): Promise<boolean> {
  const [original, result] = await Promise.all([stat(path), stat(outPath).catch(() => null)]);
  return result !== null && original.dev === result.dev && original.ino === result.ino;
}
