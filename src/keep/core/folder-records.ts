import type { EpochMs } from '../../base/index.ts';

/** What a camera does in its folder: all of it changes the view, none of it the bytes. */
export type FolderRecord = FolderMade | FolderRemoved | Renamed | Hidden | Modified;

export interface FolderMade {
  readonly type: 'folder-made';
  readonly camera: string;
  readonly path: string;
}

export interface FolderRemoved {
  readonly type: 'folder-removed';
  readonly camera: string;
  readonly path: string;
}

/** A file or a folder got another path in the view. `arrival` is the file's, null for a folder. */
export interface Renamed {
  readonly type: 'renamed';
  readonly camera: string;
  readonly from: string;
  readonly to: string;
  readonly arrival: string | null;
}

/** DELE: out of the view. */
export interface Hidden {
  readonly type: 'hidden';
  readonly camera: string;
  readonly path: string;
  readonly arrival: string;
}

/** MFMT: the modification time that the view shows. */
export interface Modified {
  readonly type: 'modified';
  readonly camera: string;
  readonly path: string;
  readonly modifiedMs: EpochMs;
}
