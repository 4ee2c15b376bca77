import { join } from 'node:path';
import { type EpochMs, MiB, SetsideError } from '../base/index.ts';
import { encodeLine } from './core/journal-line.ts';
import { versionOf } from './core/record-version.ts';
import type { JournalRecord, RecordBody } from './core/records.ts';
import { segmentFileName } from './core/segment-name.ts';
import type { Disk, DiskFile } from './disk.ts';
import { diskError } from './errors.ts';
import type { JournalEnd } from './journal-reader.ts';

/** A new segment begins after so much: small enough to copy and look into, large enough for some days. */
export const segmentBytesMax: number = 64 * MiB;

/** Most records that share one sync. More than this many cameras do not finish within one. */
export const groupRecordsMax = 512;

interface Waiting {
  readonly bodies: readonly RecordBody[];
  readonly resolve: (records: readonly JournalRecord[]) => void;
  readonly reject: (cause: unknown) => void;
}

interface OpenSegment {
  readonly file: DiskFile;
  sizeBytes: number;
}

/**
 * The append-only journal. Records that are asked for while a sync is under way share the next one. `onDurable` hears
 * each record after its sync, in order, before whoever appended it: state and listeners know only what is durable.
 *
 * After a failed write or sync nobody can say what of the group is on the disk. So the segment is left as it is and
 * the next group begins a new one under the same numbers; the reader takes the later segment's word.
 */
export class Journal {
  readonly #disk: Disk;
  readonly #folder: string;
  readonly #now: () => EpochMs;
  readonly #onDurable: (record: JournalRecord) => void;
  readonly #waiting: Waiting[] = [];
  #segment: OpenSegment | null;
  #ordinal: number;
  #nextSeq: number;
  #running: Promise<void> | null = null;
  #closed = false;

  private constructor(
    disk: Disk,
    folder: string,
    now: () => EpochMs,
    onDurable: (record: JournalRecord) => void,
    end: JournalEnd,
    segment: OpenSegment | null,
  ) {
    this.#disk = disk;
    this.#folder = folder;
    this.#now = now;
    this.#onDurable = onDurable;
    this.#ordinal = end.lastOrdinal;
    this.#nextSeq = end.nextSeq;
    this.#segment = segment;
  }

  /** Goes on where `readJournal` ended. */
  static async open(
    disk: Disk,
    folder: string,
    end: JournalEnd,
    now: () => EpochMs,
    onDurable: (record: JournalRecord) => void,
  ): Promise<Journal> {
    const { appendTo } = end;
    const segment =
      appendTo === null
        ? null
        : {
            file: await disk.openFile(join(folder, segmentFileName(appendTo.segment)), 'write'),
            sizeBytes: appendTo.sizeBytes,
          };
    return new Journal(disk, folder, now, onDurable, end, segment);
  }

  /**
   * Writes records behind each other in one group and settles when they are durable, with their places in the order.
   * Rejects `disk-full`, `disk-failed`, `bad-record`, `keep-closed`.
   */
  append(...bodies: readonly RecordBody[]): Promise<readonly JournalRecord[]> {
    if (this.#closed) return Promise.reject(new SetsideError('keep-closed', 'the journal is closed'));
    return new Promise((resolve, reject) => {
      this.#waiting.push({ bodies, resolve, reject });
      this.#running ??= this.#run();
    });
  }

  /** Waits for what was appended, then closes. */
  async close(): Promise<void> {
    this.#closed = true;
    await this.#running;
    const segment = this.#segment;
    this.#segment = null;
    await segment?.file.close();
  }

  async #run(): Promise<void> {
    while (this.#waiting.length > 0) await this.#writeGroup(this.#takeGroup());
    this.#running = null;
  }

  #takeGroup(): Waiting[] {
    let count = 0;
    let taken = 0;
    for (const { bodies } of this.#waiting) {
      if (taken > 0 && count + bodies.length > groupRecordsMax) break;
      count += bodies.length;
      taken += 1;
    }
    return this.#waiting.splice(0, taken);
  }

  async #writeGroup(group: readonly Waiting[]): Promise<void> {
    const stamped = this.#stamp(group);
    const records = stamped.flatMap((entry) => entry.records);
    if (records.length === 0) return;
    try {
      await this.#writeDurably(stamped.flatMap((entry) => entry.lines));
    } catch (cause) {
      await this.#leaveSegment();
      for (const { waiting } of stamped) waiting.reject(diskError(cause));
      return;
    }
    this.#nextSeq += records.length;
    records.forEach(this.#onDurable);
    for (const entry of stamped) entry.waiting.resolve(entry.records);
  }

  /** Gives each record its place. A record without its shape fails alone and takes no place. */
  #stamp(group: readonly Waiting[]): { waiting: Waiting; records: JournalRecord[]; lines: Uint8Array[] }[] {
    const first = this.#nextSeq;
    const atMs = this.#now();
    let seq = first;
    return group.flatMap((waiting) => {
      const records = waiting.bodies.map((body, index) => ({
        v: versionOf(body),
        seq: seq + index,
        group: first,
        atMs,
        ...body,
      }));
      try {
        const lines = records.map(encodeLine);
        seq += records.length;
        return [{ waiting, records, lines }];
      } catch (cause) {
        waiting.reject(cause);
        return [];
      }
    });
  }

  async #writeDurably(lines: readonly Uint8Array[]): Promise<void> {
    if (this.#segment !== null && this.#segment.sizeBytes >= segmentBytesMax) await this.#leaveSegment();
    this.#segment ??= await this.#beginSegment();
    const segment = this.#segment;
    await segment.file.write([joinLines(lines)], segment.sizeBytes);
    await segment.file.sync();
    segment.sizeBytes += lines.reduce((sum, line) => sum + line.length, 0);
  }

  async #beginSegment(): Promise<OpenSegment> {
    this.#ordinal += 1;
    const name = segmentFileName({ ordinal: this.#ordinal, firstSeq: this.#nextSeq });
    const file = await this.#disk.createFile(join(this.#folder, name));
    try {
      await this.#disk.syncFolder(this.#folder);
    } catch (cause) {
      await file.close();
      throw cause;
    }
    return { file, sizeBytes: 0 };
  }

  async #leaveSegment(): Promise<void> {
    const segment = this.#segment;
    this.#segment = null;
    try {
      await segment?.file.close();
    } catch {
      // Its group was rejected already, or it was synced: closing has nothing to add.
    }
  }
}

function joinLines(lines: readonly Uint8Array[]): Uint8Array {
  const joined = new Uint8Array(lines.reduce((sum, line) => sum + line.length, 0));
  let position = 0;
  for (const line of lines) {
    joined.set(line, position);
    position += line.length;
  }
  return joined;
}
