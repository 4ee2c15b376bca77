import type { EpochMs } from '../../base/index.ts';
import { id, moment, oneOf, whole } from './field-checks.ts';

/** How an original is found that is not as it was received. */
export type OriginalTrouble = 'missing' | 'differs' | 'unreadable';

/** What reading every original and every copy found, for the page of the station. The next reading replaces it. */
export interface Verified {
  /** When the reading began. */
  readonly beganMs: EpochMs;
  readonly originals: readonly { readonly arrival: string; readonly trouble: OriginalTrouble }[];
  readonly places: readonly VerifiedPlace[];
}

/** What was found in a second place when it was last read. */
export interface VerifiedPlace {
  readonly place: string;
  /** The journal's last record then: a copy made after it is another than the one that was read. */
  readonly seq: number;
  /** Arrivals whose copy is not as it was made. */
  readonly bad: readonly string[];
  /** Its copy of the journal does not hold what the journal does. */
  readonly journalIsBad: boolean;
}

/** Raised when the meaning of a field changes; what another version left is not read. */
const version = 1;

export function verifiedText(verified: Verified): string {
  return `${JSON.stringify({ version, ...verified }, null, 1)}\n`;
}

/** Null where the text is something else, or of another version. */
export function parseVerified(text: string): Verified | null {
  const value = fieldsOf(parseJson(text));
  const { beganMs } = value;
  if (value.version !== version || typeof beganMs !== 'number' || !moment(beganMs)) return null;
  const originals = listOf(value.originals, (item) => {
    const { arrival, trouble } = fieldsOf(item);
    return isId(arrival) && isTrouble(trouble) ? { arrival, trouble } : null;
  });
  const places = listOf(value.places, placeOf);
  return originals === null || places === null ? null : { beganMs, originals, places };
}

function placeOf(item: unknown): VerifiedPlace | null {
  const { place, seq, journalIsBad, ...rest } = fieldsOf(item);
  const bad = listOf(rest.bad, (arrival) => (isId(arrival) ? arrival : null));
  if (!isId(place) || typeof seq !== 'number' || !whole(seq) || bad === null) return null;
  return { place, seq, bad, journalIsBad: journalIsBad === true };
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function fieldsOf(value: unknown): Partial<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? Object.fromEntries(Object.entries(value)) : {};
}

/** Null where it is no list, or one of its items is not one. */
function listOf<Item>(value: unknown, read: (item: unknown) => Item | null): Item[] | null {
  if (!Array.isArray(value)) return null;
  const items = value.flatMap((item) => read(item) ?? []);
  return items.length === value.length ? items : null;
}

function isId(value: unknown): value is string {
  return id(value);
}

function isTrouble(value: unknown): value is OriginalTrouble {
  return oneOf('missing', 'differs', 'unreadable')(value);
}
