import { errorCode, errorMessage, SetsideError } from '../base/index.ts';

/**
 * Codes that keep raises.
 *
 * | code | when | again? |
 * | --- | --- | --- |
 * | `home-in-use` | another station has this home | after ending it |
 * | `journal-newer` | a later version wrote the journal | no |
 * | `bad-record` | a record without its shape was to be written: our mistake, or a text that is too long | no |
 * | `keep-closed` | something was asked of a keep that is closed | no |
 * | `not-broken-off` | an arrival to let go is none that is waited for | no |
 * | `disk-full` | no room, or less free than the floor | after making room |
 * | `disk-failed` | the disk refused for another reason | perhaps |
 * | `not-found`, `not-a-folder`, `not-a-file`, `not-empty`, `exists`, `offset-beyond-end`, `busy`, `too-many` | what a camera asked of its folder cannot be | `busy`: later |
 */
export type KeepErrorCode =
  | 'home-in-use'
  | 'journal-newer'
  | 'bad-record'
  | 'keep-closed'
  | 'not-broken-off'
  | FolderErrorCode;

export type FolderErrorCode =
  | 'not-found'
  | 'not-a-folder'
  | 'not-a-file'
  | 'not-empty'
  | 'exists'
  | 'offset-beyond-end'
  | 'disk-full'
  | 'disk-failed'
  | 'busy'
  | 'too-many';

export function folderError(code: FolderErrorCode, message: string): SetsideError {
  return new SetsideError(code, message, { retryable: code === 'busy' });
}

/** A system's refusal as one of ours, with the first failure as its cause. Errors of ours pass as they are. */
export function diskError(thrown: unknown): SetsideError {
  if (thrown instanceof SetsideError) return thrown;
  const code = diskErrorCode(thrown);
  return new SetsideError(code, `the disk refused: ${errorMessage(thrown)}`, {
    cause: thrown,
    cure:
      code === 'disk-full' ? 'Make room on the disk that holds the home.' : 'Check the disk and its cable.',
  });
}

/** Full: no space, over quota, or a file larger than the file system takes. */
export function diskErrorCode(thrown: unknown): 'disk-full' | 'disk-failed' {
  return ['ENOSPC', 'EDQUOT', 'EFBIG', 'disk-full'].includes(errorCode(thrown)) ? 'disk-full' : 'disk-failed';
}
