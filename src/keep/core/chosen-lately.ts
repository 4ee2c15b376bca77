import type { Chosen } from './choice-records.ts';
import type { JournalRecord, Stamp } from './records.ts';

/** What somebody chose or said, as often as it was done alike in one go. */
export interface ChosenEntry {
  /** The first of them. */
  readonly record: Chosen & Stamp;
  /** Frames of which the same was chosen. */
  readonly count: number;
}

/** Entries that are remembered: those of a long day, of which a page shows the last. */
export const entriesMax = 400;
/** A choice about thousands of frames comes in parts, one behind the other. */
const oneGoMs = 5_000;
/** So many kinds lie mixed in one write: frames that are set back to the marks and shots they had. */
const mixedMax = 16;

/** Who chose what lately. Records of before version 6 do not say who, but for what people said. */
export class ChosenLately {
  #entries: {
    readonly record: Chosen & Stamp;
    readonly key: string | null;
    count: number;
    lastMs: number;
  }[] = [];

  /** Oldest first. */
  entries(): readonly ChosenEntry[] {
    return this.#entries.map(({ record, count }) => ({ record, count }));
  }

  note(record: Chosen & Stamp): void {
    if (record.who === undefined && !isSaid(record)) return;
    const key = 'frame' in record ? keyOf(record) : null;
    const alike =
      key === null
        ? undefined
        : this.#entries
            .slice(-mixedMax)
            .findLast(
              (entry) =>
                entry.key === key &&
                (entry.lastMs === record.atMs ||
                  (entry === this.#entries.at(-1) && record.atMs - entry.lastMs <= oneGoMs)),
            );
    if (alike === undefined) {
      this.#entries.push({ record, key, count: 1, lastMs: record.atMs });
      // Not with each one: cutting the list copies it.
      if (this.#entries.length > 2 * entriesMax) this.#entries = this.#entries.slice(-entriesMax);
    } else {
      alike.count += 1;
      alike.lastMs = record.atMs;
    }
  }
}

/** Said by name, whatever the version. */
function isSaid({ type }: JournalRecord): boolean {
  return type === 'remark-made' || type === 'remark-answered' || type === 'agreed';
}

/** All of it but which frame, and when. */
function keyOf({ v: _v, seq: _seq, group: _group, atMs: _atMs, ...choice }: Chosen & Stamp): string {
  return JSON.stringify({ ...choice, frame: null });
}
