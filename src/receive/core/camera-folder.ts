import type { EpochMs } from '../../base/index.ts';

/**
 * What receiving needs from whoever keeps files: one camera's folder as the camera sees it. `keep` provides it and
 * `station` joins the two; receiving never hears the words journal or originals.
 *
 * Paths are absolute within the folder, `/`-separated, already normalised by the session (`/`, `/DCIM/100ABCDE/X.DNG`):
 * no empty part, no `.` or `..`, no NUL or control character, parts of at most 255 bytes, at most 16 deep.
 * Rejections carry a `SetsideError` with one of {@link FolderErrorCode}.
 */
export interface CameraFolder {
  /** Entries of a folder, in name order. Rejects `not-found`, `not-a-folder`. */
  list(path: string): Promise<readonly FolderEntry[]>;
  /** One entry, or null where there is none. The root always exists. */
  stat(path: string): Promise<FolderEntry | null>;
  /** Rejects `exists`, `not-found` (parent). */
  makeFolder(path: string): Promise<void>;
  /** Rejects `not-found`, `not-a-folder`, `not-empty`. Only an empty folder of the view goes. */
  removeFolder(path: string): Promise<void>;
  /** Changes the view and the frame's name, never bytes. A name already taken by a file rejects `exists`. */
  rename(from: string, to: string): Promise<void>;
  /** DELE: takes the file out of the view; the original stays. Rejects `not-found`, `not-a-file`. */
  hide(path: string): Promise<void>;
  /** MFMT: the modification time shown from now on. */
  setModified(path: string, modifiedMs: EpochMs): Promise<void>;
  /**
   * Begins or resumes a file. The promise settles after the arrival is announced in the journal.
   * Rejects `not-found` (parent), `not-a-file`, `offset-beyond-end`, `disk-full`, `busy` (same path, still arriving
   * from a connection that is alive), `too-many`.
   */
  open(path: string, how: OpenHow): Promise<Arrival>;
}

export interface OpenHow {
  readonly via: 'ftp' | 'ftps' | 'sftp' | 'folder';
  /**
   * Where the first byte goes. `start` begins anew; a number must not exceed what is held (REST); `end` appends.
   * Resuming a broken-off file goes on in `incoming/`; resuming one that is already kept makes a new original.
   */
  readonly at: 'start' | 'end' | { readonly offsetBytes: number };
  /** ALLO, or the size an SFTP client announces; null where nothing was said. */
  readonly announcedBytes: number | null;
}

export interface FolderEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder';
  /** For a broken-off file: the bytes held, so that SIZE tells a client where to resume. */
  readonly sizeBytes: number;
  readonly modifiedMs: EpochMs;
}

/** One file on its way in. */
export interface Arrival {
  readonly id: string;
  /** Where the first byte of this connection goes. */
  readonly offsetBytes: number;
  /**
   * Takes the next bytes. The caller leaves the buffer alone until the promise settles (the bytes are then written
   * and hashed); it may have several writes under way, they are taken in order. The memory may be shared
   * (`SharedArrayBuffer`), so that a worker can hash it where it lies. Rejects `disk-full`, `disk-failed`; after that
   * only `finish` may be called.
   */
  write(bytes: Uint8Array): Promise<void>;
  /**
   * Settles when every byte whose write has settled is durable where it lies, as one can go on from after a power
   * loss; that is not yet kept. Rejects `disk-full`, `disk-failed`.
   */
  sync(): Promise<void>;
  /**
   * The bytes have ended, and how. Settles when the outcome is durable. Call once, after all writes were issued.
   */
  finish(end: ArrivalEnd): Promise<ArrivalOutcome>;
}

/**
 * `closed`: the data connection was closed in order (in stream mode that is the end of file, RFC 959 3.4.1).
 * `reset`: it broke. `control-lost`: the control connection went first. `aborted`: ABOR. `stalled`: no byte for too
 * long. `unclosed`: a TLS connection was closed as TCP closes, without close_notify, so that anybody on the line may
 * have cut it (RFC 8446 section 6.1). `stopping`: the station is being shut down. `dismissed`: the camera may not
 * stay. `failed`: a write was rejected.
 */
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
  /** Durable: bytes synced, renamed into originals/, directory synced, journal synced. Answer 226. */
  | {
      readonly kind: 'kept';
      readonly wholeness: 'whole' | 'unknown';
      readonly sizeBytes: number;
      /** The client asked to go on here and sent its file from the beginning: it has to be sent anew. */
      readonly beganAgainAtBytes?: number;
    }
  /** The same cut bytes came a second time: durable, kept as damaged. Answer 226: that is what the camera has. */
  | { readonly kind: 'kept-damaged'; readonly sizeBytes: number; readonly expectedBytes: number | null }
  /** Still in incoming/, durable and resumable. Answer 426, or 451 where the connection had closed in order. */
  | { readonly kind: 'broken-off'; readonly sizeBytes: number; readonly expectedBytes: number | null }
  /** Not acknowledged: the disk is full (452) or failed (451). What had come stays in incoming/. */
  | { readonly kind: 'failed'; readonly code: 'disk-full' | 'disk-failed'; readonly sizeBytes: number };

export const folderErrorCodes = [
  'not-found',
  'not-a-folder',
  'not-a-file',
  'not-empty',
  'exists',
  'offset-beyond-end',
  'disk-full',
  'disk-failed',
  'busy',
  'too-many',
] as const;
export type FolderErrorCode = (typeof folderErrorCodes)[number];
