import type { EpochMs } from '../../base/index.ts';
import {
  exactly,
  type Fields,
  hasExactly,
  id,
  listOf,
  moment,
  oneOf,
  orLeftOut,
  orNull,
  text,
  whole,
  yesOrNo,
} from './field-checks.ts';
import type { OriginalTrouble } from './verified.ts';

/** What a station notes of reading everything again, so that it goes on after a restart and knows when it is due. */
export interface VerificationNote {
  /** The days until the first reading count from here. */
  readonly sinceMs: EpochMs;
  /** What goes on; null between two readings. */
  readonly round: VerificationRound | null;
  /** The last that came to its end. */
  readonly last: VerificationLast | null;
  /** Folders that the station last copied to; left out by earlier versions. */
  readonly inUse?: readonly string[];
}

export interface VerificationRound {
  readonly beganMs: EpochMs;
  readonly pace: 'slow' | 'full';
  /** The arrival of the original that was read last; null before the first. */
  readonly after: string | null;
  /** The journal's last record when the reading, or what went on with it, began. */
  readonly seq: number;
  readonly doneFiles: number;
  readonly files: number;
  readonly doneBytes: number;
  readonly bytes: number;
  readonly originals: readonly { readonly arrival: string; readonly trouble: OriginalTrouble }[];
  /** Copies that are not as they were made. */
  readonly copies: readonly { readonly arrival: string; readonly place: string }[];
}

export interface VerificationLast {
  readonly beganMs: EpochMs;
  readonly endedMs: EpochMs;
  readonly files: number;
  readonly bytes: number;
  readonly badOriginals: number;
  readonly places: readonly {
    readonly folder: string;
    readonly files: number;
    readonly bad: number;
    readonly wasRead: boolean;
  }[];
}

/** Raised when the meaning of a field changes; what another version left is not read. */
const version = 1;

/** More than a home holds is damage. */
const listMax = 1_000_000;
const place = exactly({ folder: text(4096), files: whole, bad: whole, wasRead: yesOrNo });
const round = exactly({
  beganMs: moment,
  pace: oneOf('slow', 'full'),
  after: orNull(id),
  seq: whole,
  doneFiles: whole,
  files: whole,
  doneBytes: whole,
  bytes: whole,
  originals: listOf(exactly({ arrival: id, trouble: oneOf('missing', 'differs', 'unreadable') }), listMax),
  copies: listOf(exactly({ arrival: id, place: id }), listMax),
});
const last = exactly({
  beganMs: moment,
  endedMs: moment,
  files: whole,
  bytes: whole,
  badOriginals: whole,
  places: listOf(place, 1000),
});
const shape: Fields = {
  version: (value) => value === version,
  sinceMs: moment,
  round: orNull(round),
  last: orNull(last),
  inUse: orLeftOut(listOf(text(4096), 1000)),
};

export function verificationText(note: VerificationNote): string {
  return `${JSON.stringify({ version, ...note }, null, 1)}\n`;
}

/** Null where the text is something else, or of another version: then it is due as if nothing had been read. */
export function parseVerificationNote(given: string): VerificationNote | null {
  let value: unknown;
  try {
    value = JSON.parse(given);
  } catch {
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  if (!hasExactly(shape, new Map(Object.entries(value)))) return null;
  // The shape holds, so it is a note with its version beside it.
  const { sinceMs, round: goes, last: ended, inUse } = value as VerificationNote;
  return { sinceMs, round: goes, last: ended, ...(inUse === undefined ? {} : { inUse }) };
}
