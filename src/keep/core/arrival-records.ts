import type { EpochMs } from '../../base/index.ts';

/** What becomes of a file on its way in. */
export type ArrivalRecord =
  | Announced
  | Resumed
  | Synced
  | Settling
  | BrokenOff
  | Kept
  | Again
  | MadeGood
  | LetGo
  | Folded;

/** A file is about to come in. Durable before its first byte is taken. */
export interface Announced {
  readonly type: 'announced';
  readonly arrival: string;
  readonly frame: string;
  readonly job: string;
  readonly camera: string;
  /** In the camera's folder, as the camera named it. */
  readonly path: string;
  /** Name in `incoming/`. */
  readonly incoming: string;
  readonly via: Via;
  readonly announcedBytes: number | null;
  /** The arrival whose first bytes this one starts from (REST or APPE), or null for a file from its start. */
  readonly prefixOf: string | null;
  readonly prefixBytes: number;
  /** The arrival that the folder showed at this path until now. */
  readonly over: string | null;
}

export type Via = 'ftp' | 'ftps' | 'sftp' | 'folder';

/** A broken-off file goes on in place, from the end of what is held. */
export interface Resumed {
  readonly type: 'resumed';
  readonly arrival: string;
  readonly via: Via;
  readonly offsetBytes: number;
  readonly announcedBytes: number | null;
}

/** So many bytes of a long file are on the disk for certain: what a resume may rely on after power loss. */
export interface Synced {
  readonly type: 'synced';
  readonly arrival: string;
  readonly sizeBytes: number;
}

/** All bytes are here; the file is about to be moved to where it stays. Names everything the `kept` record will. */
export interface Settling extends KeptFile {
  readonly type: 'settling';
}

/** Durable in `originals/`; acknowledged to the camera right after this. */
export interface Kept extends KeptFile {
  readonly type: 'kept';
}

export interface KeptFile {
  readonly arrival: string;
  /** In `kept`: where it belongs from now on, which may be another frame than it was announced in. */
  readonly frame: string;
  readonly job: string;
  readonly camera: string;
  readonly path: string;
  /** Last part of `path`. */
  readonly name: string;
  /** Path of the original below the home, `/`-separated. */
  readonly original: string;
  readonly sizeBytes: number;
  readonly sha256: string;
  readonly wholeness: 'whole' | 'unknown' | 'damaged';
  /** What structure or announcement asked for, where that is more than came. */
  readonly expectedBytes: number | null;
  readonly firstByteMs: EpochMs | null;
  readonly lastByteMs: EpochMs | null;
}

/** The bytes ended too early. They stay in `incoming/`. */
export interface BrokenOff {
  readonly type: 'broken-off';
  readonly arrival: string;
  /** Held, and good to resume from. */
  readonly sizeBytes: number;
  readonly expectedBytes: number | null;
  /** Of the bytes held; null where the process died before it was known. */
  readonly sha256: string | null;
  readonly end: BrokenOffEnd;
  readonly firstByteMs: EpochMs | null;
  readonly lastByteMs: EpochMs | null;
}

/** How the bytes ended: as receiving said, or `died` where the process ended first. */
export type BrokenOffEnd =
  | 'closed'
  | 'unclosed'
  | 'reset'
  | 'control-lost'
  | 'aborted'
  | 'stalled'
  | 'stopping'
  | 'dismissed'
  | 'failed'
  | 'died';

/** The camera sent what is kept already, byte for byte: the original stands, no second one was made. */
export interface Again {
  readonly type: 'again';
  readonly arrival: string;
  readonly sameAs: string;
  readonly sizeBytes: number;
  readonly sha256: string;
}

/** A broken-off file whose bytes are proved to be the first ones of a kept file, or that held none. Its bytes stay where they are. */
export interface MadeGood {
  readonly type: 'made-good';
  readonly arrival: string;
  readonly by: string;
}

/** A person said that a broken-off file is not waited for. Its bytes stay where they are. */
export interface LetGo {
  readonly type: 'let-go';
  readonly arrival: string;
}

/**
 * All bytes of an attempt are the first bytes of another file that is held (`into`), read and compared just before: their
 * second place in `incoming/` is given back to the disk. Durable before it is.
 */
export interface Folded {
  readonly type: 'folded';
  readonly arrival: string;
  readonly into: string;
  /** They are its bytes from 0 to here. */
  readonly sizeBytes: number;
  readonly sha256: string;
}
