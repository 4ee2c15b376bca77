import type { EpochMs } from '../../base/index.ts';
import type { Chosen } from './choice-records.ts';

export type { Choice, Chosen } from './choice-records.ts';

/**
 * Newest version of the record shapes. Each record carries the version in which its kind came, so that an earlier version
 * reads a journal as long as nothing in it is new, and refuses it from the first record on that is.
 */
export const recordVersion = 7;

/** The version that a record carries: that of its kind, or of the youngest field it has. */
export function versionOf(record: RecordBody): number {
  if (record.type === 'put-back') return 7;
  if ('who' in record && record.who !== undefined) return 6;
  if (record.type === 'job-hand-over-set' && record.metadata !== undefined) return 5;
  if (typesOfVersion5.has(record.type)) return 5;
  if (typesOfVersion4.has(record.type)) return 4;
  if (typesOfVersion3.has(record.type)) return 3;
  if (record.type === 'shot-stated' && (record.shot.lookId ?? record.shot.order) !== undefined) return 3;
  return typesOfVersion2.has(record.type) ? 2 : 1;
}

const typesOfVersion2: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>([
  'job-described',
  'job-state-set',
  'job-tolerances-set',
  'job-removed',
  'shot-stated',
  'shots-ordered',
  'shot-removed',
  'shot-current-set',
  'purpose-set',
  'acceptance-set',
  'camera-clock-set',
]);

const typesOfVersion3: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>([
  'copy-lost',
  'folded',
  'job-grey-card-set',
  'job-hand-over-set',
  'job-colour-set',
  'job-targets-set',
  'job-scales-set',
  'job-last-numbers-set',
  'job-explained-set',
  'job-signed-set',
  'shot-followed',
  'slate-heeded',
  'spot-set',
  'look-set',
  'look-saved',
  'look-aside-set',
]);

const typesOfVersion4: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>([
  'share-set',
  'remark-made',
  'remark-answered',
  'remark-settled',
  'agreed',
  'agreement-withdrawn',
]);

const typesOfVersion5: ReadonlySet<RecordBody['type']> = new Set<RecordBody['type']>(['card-checked']);

/** One durable fact, as it stands in the journal: what happened, with its place in the order of all that happened. */
export type JournalRecord = Stamp & RecordBody;

export interface Stamp {
  readonly v: number;
  /** 1, 2, 3 … over the whole life of the home. */
  readonly seq: number;
  /** `seq` of the first record that was written and synced together with this one. */
  readonly group: number;
  readonly atMs: EpochMs;
}

export type RecordBody =
  | Opened
  | Announced
  | Resumed
  | Synced
  | Settling
  | BrokenOff
  | Kept
  | Again
  | MadeGood
  | LetGo
  | Folded
  | FolderMade
  | FolderRemoved
  | Renamed
  | Hidden
  | Modified
  | PlaceMade
  | Copied
  | CopyLost
  | CardChecked
  | PutBack
  | Chosen;

/** A station began to use the home. */
export interface Opened {
  readonly type: 'opened';
  /** Changes with every start of the computer; null where the system does not tell. */
  readonly bootId: string | null;
}

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

/** A second place was taken into use. Its folder carries a marker with this id, so that it is known again elsewhere. */
export interface PlaceMade {
  readonly type: 'place-made';
  readonly place: string;
  /** Absolute, as it was given then. */
  readonly folder: string;
}

/** The bytes of an original lie in a second place too: written, synced, and read back with the same SHA-256. */
export interface Copied {
  readonly type: 'copied';
  readonly arrival: string;
  readonly place: string;
  readonly readBack: ReadBackMethod;
  /** Whether the place was on another device than the home, and not in memory, when it was written: only then does the copy count. */
  readonly otherDevice: boolean;
}

/** A copy is not in its place any more, or not as it was made. It counts no more, until it is `copied` again. */
export interface CopyLost {
  readonly type: 'copy-lost';
  readonly arrival: string;
  readonly place: string;
  readonly why: CopyLostWhy;
}

/** An original that was not as received was put back from its copy in a second place, read back and compared. */
export interface PutBack {
  readonly type: 'put-back';
  readonly arrival: string;
  readonly place: string;
  /** Below the home, `/`-separated: where what lay under its name until then was moved. Null where nothing did. */
  readonly aside: string | null;
}

/** A memory card was held against originals and copies, file by file: what was proved then. */
export interface CardChecked {
  readonly type: 'card-checked';
  /** The folder it was shown under. */
  readonly folder: string;
  readonly files: number;
  readonly bytes: number;
  /** Files by what was proved of them; together they are `files`. */
  readonly safe: number;
  readonly once: number;
  readonly missing: number;
  readonly unread: number;
  /** Every file was safe, and the card was there to its end. */
  readonly isSafe: boolean;
  /** The last number of each camera among the files of the card that are here. */
  readonly lasts: readonly CardLast[];
}

export interface CardLast {
  readonly camera: string;
  /** What tells two cameras of one log-in apart (`namePrefix`). */
  readonly prefix: string;
  /** 1 to 9999. */
  readonly counter: number;
}

export type CopyLostWhy = 'missing' | 'size' | 'unreadable';

/**
 * How a copy was read back. `direct`: from the device, past the memory of the system (O_DIRECT). `cached`: the system
 * offers no such way here, and may have answered from memory.
 */
export type ReadBackMethod = 'direct' | 'cached';
