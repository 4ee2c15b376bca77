/** Second places, and what lies in them. */
export type CopyRecord = PlaceMade | Copied | CopyLost | PutBack;

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

/**
 * How a copy was read back. `direct`: from the device, past the memory of the system (O_DIRECT). `cached`: the system
 * offers no such way here, and may have answered from memory.
 */
export type ReadBackMethod = 'direct' | 'cached';

/** A copy is not in its place any more, or not as it was made. It counts no more, until it is `copied` again. */
export interface CopyLost {
  readonly type: 'copy-lost';
  readonly arrival: string;
  readonly place: string;
  readonly why: CopyLostWhy;
}

export type CopyLostWhy = 'missing' | 'size' | 'unreadable';

/** An original that was not as received was put back from its copy in a second place, read back and compared. */
export interface PutBack {
  readonly type: 'put-back';
  readonly arrival: string;
  readonly place: string;
  /** Below the home, `/`-separated: where what lay under its name until then was moved. Null where nothing did. */
  readonly aside: string | null;
}
