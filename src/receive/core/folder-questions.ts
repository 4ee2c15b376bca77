import type { EpochMs } from '../../base/index.ts';
import type { FolderEntry, FolderErrorCode } from './camera-folder.ts';

/** What a session of either door may ask of a camera's folder and what it gets back: question → [request, answer]. */
export interface FolderQuestions {
  list: [{ readonly path: string }, FolderAnswer<readonly FolderEntry[]>];
  stat: [{ readonly path: string }, FolderAnswer<FolderEntry | null>];
  'make-folder': [{ readonly path: string }, FolderAnswer<null>];
  'remove-folder': [{ readonly path: string }, FolderAnswer<null>];
  rename: [{ readonly from: string; readonly to: string }, FolderAnswer<null>];
  hide: [{ readonly path: string }, FolderAnswer<null>];
  'set-modified': [{ readonly path: string; readonly modifiedMs: EpochMs }, FolderAnswer<null>];
}

export type FolderAnswer<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly code: FolderErrorCode };
