import type { ReadBackMethod } from '../core/records.ts';

/** A second place as the copier knows it. */
export interface PlaceAddress {
  /** The home that is copied, absolute. */
  readonly home: string;
  /** The second place, absolute. */
  readonly folder: string;
  /** Id in the place's marker. */
  readonly place: string;
}

/** One original to be copied. */
export interface FileToCopy {
  readonly arrival: string;
  /** Below the home, and below the place. */
  readonly original: string;
  readonly sizeBytes: number;
  readonly sha256: string;
}

/** What became of one file. Only `copied` may be journalled. */
export type CopyOutcome =
  | { readonly kind: 'copied'; readonly readBack: ReadBackMethod; readonly otherDevice: boolean }
  /** The original itself is not as it was received: far graver than a missing copy. */
  | { readonly kind: 'original-missing' | 'original-differs' }
  /** What was read back is not what was written. */
  | { readonly kind: 'differs' }
  | PlaceTrouble;

/** Why nothing can be copied to a place now. */
export interface PlaceTrouble {
  readonly kind: 'place';
  readonly trouble: 'away' | 'foreign' | 'full' | 'failed';
  /** The system's words, for `failed`. */
  readonly why: string;
}

export type PlaceCheck = { readonly kind: 'ready'; readonly otherDevice: boolean } | PlaceTrouble;

export type JournalOutcome = { readonly kind: 'copied' | 'differs' } | PlaceTrouble;

/**
 * What copies to one place. Asked for one thing at a time; nothing rejects for what a disk does. `copyThread` does it
 * in a thread of its own, `inlineCopier` in line, for tests and where a thread cannot be loaded.
 */
export interface Copier {
  /** Looks for the place. With `found`, a place that was never used is made and marked. */
  check(found: boolean): Promise<PlaceCheck>;
  copy(file: FileToCopy): Promise<CopyOutcome>;
  /** Brings the place's journal up to the home's. */
  copyJournal(): Promise<JournalOutcome>;
  close(): Promise<void>;
}
