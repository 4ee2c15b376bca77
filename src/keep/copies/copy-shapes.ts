import type { CopyLostWhy, ReadBackMethod } from '../core/copy-records.ts';

/** What is copied to where: both absolute. */
export interface CopyWay {
  readonly home: string;
  /** Of the second place. */
  readonly folder: string;
  /** Whether a place in memory counts as one on another device. */
  readonly memoryCounts?: boolean;
}

/** Where a place lies beside the home: only in one that lies `apart` do copies count. */
export type PlaceLies = 'apart' | 'same-device' | 'in-memory';

/** A second place as it is known. */
export interface PlaceAddress extends CopyWay {
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
  | {
      readonly kind: 'copied';
      readonly readBack: ReadBackMethod;
      /** Whether the place lies apart from the home, so that the copy counts. */
      readonly otherDevice: boolean;
      /** The original was read for it, and is as received; false where the copy lay there already. */
      readonly originalRead: boolean;
    }
  /** The original itself is not as it was received: far graver than a missing copy. */
  | { readonly kind: 'original-missing' | 'original-differs' }
  /** It is there, and the home's disk does not give it: `why` in the system's words. */
  | { readonly kind: 'original-unreadable'; readonly why: string }
  /** What was read back is not what was written. */
  | { readonly kind: 'differs' }
  | PlaceTrouble;

/** Why nothing can be copied to a place now. */
export interface PlaceTrouble {
  readonly kind: 'place';
  readonly trouble: 'away' | 'foreign' | 'full' | 'failed';
  /** The system's words, for `failed`; the id in the marker, for `foreign`. */
  readonly why: string;
}

export type PlaceCheck = { readonly kind: 'ready'; readonly lies: PlaceLies } | PlaceTrouble;

/** A copy as it should lie in its place. */
export type CopyToLookFor = Pick<FileToCopy, 'arrival' | 'original' | 'sizeBytes'>;

/** Which of the copies that were looked for are not there as they were made. */
export type LookOutcome =
  | {
      readonly kind: 'looked';
      readonly lost: readonly { readonly arrival: string; readonly why: CopyLostWhy }[];
      /** The journal's copy is not there, or not in the size of the journal. */
      readonly journalIsBehind: boolean;
    }
  | PlaceTrouble;

export type JournalOutcome = { readonly kind: 'copied' | 'differs' } | PlaceTrouble;

/**
 * What copies to one folder. Asked for one thing at a time; nothing rejects for what a disk does. `CopyProcess` does it
 * in a process of its own, `inlineCopier` in line, for tests and where a process cannot load the sources.
 */
export interface Copier {
  /** Looks for the place. With `found`, one that is not marked yet is made and marked. */
  check(place: string, found: boolean): Promise<PlaceCheck>;
  copy(place: string, file: FileToCopy): Promise<CopyOutcome>;
  /** Looks whether copies are there, with their size. Reads none of them. */
  look(place: string, copies: readonly CopyToLookFor[]): Promise<LookOutcome>;
  /** Brings the place's journal up to the home's. */
  copyJournal(place: string): Promise<JournalOutcome>;
  close(): Promise<void>;
}
