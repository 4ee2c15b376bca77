import type { EpochMs } from '../base/index.ts';
import type { Wholeness } from '../facts/index.ts';

/**
 * What keep offers to whoever receives: the shapes of receive's `CameraFolder`, declared here as well because the two
 * rooms do not know each other. `station` joins them, and the compiler checks there that they agree.
 */
export interface KeptFolder {
  list(path: string): Promise<readonly FolderEntry[]>;
  stat(path: string): Promise<FolderEntry | null>;
  makeFolder(path: string): Promise<void>;
  removeFolder(path: string): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  hide(path: string): Promise<void>;
  setModified(path: string, modifiedMs: EpochMs): Promise<void>;
  open(path: string, how: OpenHow): Promise<Arrival>;
}

export interface OpenHow {
  readonly via: 'ftp' | 'ftps' | 'sftp' | 'folder';
  readonly at: 'start' | 'end' | { readonly offsetBytes: number };
  readonly announcedBytes: number | null;
  /** The job it belongs to, where that is not the one that cameras shoot for. */
  readonly job?: string;
}

export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder';
  readonly sizeBytes: number;
  readonly modifiedMs: EpochMs;
}

export interface Arrival {
  readonly id: string;
  readonly offsetBytes: number;
  write(bytes: Uint8Array): Promise<void>;
  sync(): Promise<void>;
  finish(end: ArrivalEnd): Promise<ArrivalOutcome>;
}

/** `unclosed`: the line ended, and nothing proves that it was the client who ended it (TLS without close_notify). */
export type ArrivalEnd =
  | 'closed'
  | 'unclosed'
  | 'reset'
  | 'control-lost'
  | 'aborted'
  | 'stalled'
  | 'stopping'
  | 'dismissed'
  | 'failed';

export type ArrivalOutcome =
  | {
      readonly kind: 'kept';
      readonly wholeness: 'whole' | 'unknown';
      readonly sizeBytes: number;
      readonly beganAgainAtBytes?: number;
    }
  | { readonly kind: 'kept-damaged'; readonly sizeBytes: number; readonly expectedBytes: number | null }
  | { readonly kind: 'broken-off'; readonly sizeBytes: number; readonly expectedBytes: number | null }
  | { readonly kind: 'failed'; readonly code: 'disk-full' | 'disk-failed'; readonly sizeBytes: number };

/** Says what a file's own structure proves about its end. Given by `station`; a rejection counts as `unknown`. */
export type Inspect = (file: { readonly path: string; readonly sizeBytes: number }) => Promise<Wholeness>;
