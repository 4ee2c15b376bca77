import { SetsideError } from '../../base/index.ts';
import type { LineReading } from './journal-line.ts';
import type { JournalRecord } from './records.ts';

/** Records that had been synced and cannot be read any more. */
export interface JournalDamage {
  readonly seqFrom: number;
  readonly seqTo: number;
}

export interface SegmentEnd {
  /** Records that only the end of the segment showed to be good. */
  readonly records: readonly JournalRecord[];
  readonly damage: readonly JournalDamage[];
  /** `seq` that the next record gets. */
  readonly nextSeq: number;
  /** Whether records may be appended here; a torn tail is left as it is and a new segment goes on. */
  readonly appendable: boolean;
}

/**
 * Tells what a segment's lines are worth: good, the torn tail of a write that was never synced, or damage.
 *
 * The writer has one group of records under way at a time and starts the next only after the last one was synced.
 * So a bad line with a good line of a *later* group after it had been synced once: that is damage, and reported.
 * A bad line with nothing after it, or only lines of its own group, was never acknowledged: a torn tail.
 */
export class SegmentReader {
  #expected: number;
  readonly #nextSegmentSeq: number | null;
  /** Good lines after a bad one, until it is known which of the two it was. */
  #held: JournalRecord[] = [];
  /** Whether anything but good lines in their order was met. */
  #broken = false;
  readonly #damage: JournalDamage[] = [];

  /**
   * `nextSegmentSeq`: first `seq` of the following segment, null for the last one. Whatever a segment holds from there
   * on was written by a group whose sync failed, and the following segment says it anew.
   */
  constructor(firstSeq: number, nextSegmentSeq: number | null) {
    this.#expected = firstSeq;
    this.#nextSegmentSeq = nextSegmentSeq;
  }

  /** Takes one line and gives the records that are certain now. Throws `journal-newer`. */
  push(reading: LineReading): readonly JournalRecord[] {
    if (reading.kind === 'newer') throw journalNewer(reading.version);
    if (reading.kind === 'damaged') {
      this.#broken = true;
      return [];
    }
    const { record } = reading;
    if (this.#nextSegmentSeq !== null && record.seq >= this.#nextSegmentSeq) return [];
    if (record.seq === this.#expected) {
      this.#expected += 1;
      return [record];
    }
    this.#broken = true;
    if (record.seq < this.#expected) return [];
    this.#held.push(record);
    return record.group > this.#expected ? this.#acceptHeld() : [];
  }

  /** `torn`: bytes were left that no line feed ended. */
  end(torn: boolean): SegmentEnd {
    const goesOn = this.#nextSegmentSeq !== null && this.#expected < this.#nextSegmentSeq;
    const records = goesOn ? this.#acceptHeld() : [];
    if (this.#nextSegmentSeq !== null && this.#expected < this.#nextSegmentSeq) {
      this.#damage.push({ seqFrom: this.#expected, seqTo: this.#nextSegmentSeq - 1 });
    }
    return {
      records,
      damage: this.#damage,
      nextSeq: this.#nextSegmentSeq ?? this.#expected,
      appendable: !torn && !this.#broken,
    };
  }

  /**
   * The lines between were synced once: says which are lost, and goes on with what is good. The writer never puts a
   * line twice or before an earlier one; a disk that gives back old blocks can, so each is taken once, in its place.
   */
  #acceptHeld(): readonly JournalRecord[] {
    const held = this.#held.sort((a, b) => a.seq - b.seq);
    this.#held = [];
    return held.filter((record) => {
      if (record.seq < this.#expected) return false;
      if (record.seq > this.#expected) this.#damage.push({ seqFrom: this.#expected, seqTo: record.seq - 1 });
      this.#expected = record.seq + 1;
      return true;
    });
  }
}

function journalNewer(version: number): SetsideError {
  return new SetsideError('journal-newer', `the journal holds records of version ${version}`, {
    cure: 'Start the newer Setside that wrote it; an older one cannot read it.',
  });
}
