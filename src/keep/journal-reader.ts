import { join } from 'node:path';
import { MiB } from '../base/index.ts';
import { LineCutter } from './core/journal-line.ts';
import type { JournalRecord } from './core/records.ts';
import { parseSegmentFileName, type SegmentName, segmentFileName } from './core/segment-name.ts';
import { type JournalDamage, SegmentReader } from './core/segment-reader.ts';
import type { Disk } from './disk.ts';

/** Where the next record goes, and what could not be read on the way there. */
export interface JournalEnd {
  readonly nextSeq: number;
  readonly damage: readonly JournalDamage[];
  /** The last segment with its size, where records may be appended to it; null where a new one must begin. */
  readonly appendTo: { readonly segment: SegmentName; readonly sizeBytes: number } | null;
  /** Highest segment number in use, 0 where there is none. */
  readonly lastOrdinal: number;
}

/**
 * Reads a journal from its first record: gives its records in order, some at a time, and in the end where it ends.
 * Changes nothing on the disk, so that it may run while a station writes: then it ends with what is there.
 * Rejects `journal-newer` and what the disk rejects.
 */
export async function* readJournal(
  disk: Disk,
  folder: string,
): AsyncGenerator<readonly JournalRecord[], JournalEnd> {
  const segments = await listSegments(disk, folder);
  let end: JournalEnd = { nextSeq: 1, damage: [], appendTo: null, lastOrdinal: 0 };
  for (const [index, segment] of segments.entries()) {
    end = yield* readSegment(disk, folder, segment, segments[index + 1] ?? null, end);
  }
  return end;
}

/** Reads a whole journal and hands each record to `take`. */
export async function replayJournal(
  disk: Disk,
  folder: string,
  take: (record: JournalRecord) => void,
): Promise<JournalEnd> {
  const batches = readJournal(disk, folder);
  for (;;) {
    const next = await batches.next();
    if (next.done === true) return next.value;
    next.value.forEach(take);
  }
}

async function listSegments(disk: Disk, folder: string): Promise<SegmentName[]> {
  const entries = await disk.list(folder);
  return entries
    .flatMap((entry) => parseSegmentFileName(entry.name) ?? [])
    .sort((a, b) => a.ordinal - b.ordinal);
}

async function* readSegment(
  disk: Disk,
  folder: string,
  segment: SegmentName,
  next: SegmentName | null,
  before: JournalEnd,
): AsyncGenerator<readonly JournalRecord[], JournalEnd> {
  const reader = new SegmentReader(segment.firstSeq, next?.firstSeq ?? null);
  const cutter = new LineCutter();
  let sizeBytes = 0;
  for await (const chunk of readChunks(disk, join(folder, segmentFileName(segment)))) {
    sizeBytes += chunk.length;
    yield cutter.push(chunk).flatMap((reading) => reader.push(reading));
  }
  const end = reader.end(cutter.torn);
  yield end.records;
  return {
    nextSeq: end.nextSeq,
    damage: [...before.damage, ...missingSegment(before.nextSeq, segment.firstSeq), ...end.damage],
    appendTo: end.appendable ? { segment, sizeBytes } : null,
    lastOrdinal: segment.ordinal,
  };
}

/** A segment that is gone altogether leaves a gap between its neighbours. */
function missingSegment(expectedSeq: number, firstSeq: number): JournalDamage[] {
  return firstSeq > expectedSeq ? [{ seqFrom: expectedSeq, seqTo: firstSeq - 1 }] : [];
}

/** The buffer is used again for each chunk. */
async function* readChunks(disk: Disk, path: string): AsyncGenerator<Uint8Array> {
  const file = await disk.openFile(path, 'read');
  try {
    const buffer = new Uint8Array(MiB);
    for (let position = 0; ; ) {
      const count = await file.read(buffer, position);
      if (count === 0) return;
      position += count;
      yield buffer.subarray(0, count);
    }
  } finally {
    await file.close();
  }
}
