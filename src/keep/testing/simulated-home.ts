import { createHash } from 'node:crypto';
import type { Wholeness } from '../../facts/index.ts';
import type { Arrival, ArrivalEnd, ArrivalOutcome, OpenHow } from '../arrival-shapes.ts';
import type { KeepEvent } from '../core/keep-event.ts';
import type { JournalRecord } from '../core/records.ts';
import { type Keep, type KeepOptions, openKeep } from '../keep.ts';
import { type SimulatedDisk, simulatedDisk } from './simulated-disk.ts';

/** A home on a simulated disk, for tests: a clock that ticks once per look, ids that count, a format that says its size. */
export const home = '/home';

/** A file whose own structure tells its size: `SIZE 120\n`, then filling that depends on `seed`. */
export function sized(sizeBytes: number, seed = 1): Uint8Array {
  const bytes = Uint8Array.from({ length: sizeBytes }, (_, i) => (i * 31 + seed * 17 + (i >> 8)) & 0xff);
  bytes.set(new TextEncoder().encode(`SIZE ${sizeBytes}\n`).subarray(0, sizeBytes));
  return bytes;
}

/** A file that tells nothing of its end. */
export function plain(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

export function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

export interface SimulatedHome {
  readonly keep: Keep;
  readonly disk: SimulatedDisk;
  readonly events: KeepEvent[];
}

let opened = 0;

export async function openSimulatedHome(
  disk: SimulatedDisk = simulatedDisk(),
  options: Partial<KeepOptions> = {},
): Promise<SimulatedHome> {
  // Ids of one start never meet those of another.
  const start = ++opened;
  let ids = 0;
  let nowMs = 1_000_000;
  const keep = await openKeep({
    home,
    disk,
    inspect: async ({ path }) => wholenessOf(disk.bytesOf(path) ?? new Uint8Array(0)),
    newId: () => `s${start}-${++ids}`,
    now: () => ++nowMs,
    jobOf: () => 'QM-26',
    diskFloorBytes: 0,
    hashWorkers: 0,
    ...options,
  });
  const events: KeepEvent[] = [];
  keep.on((event) => events.push(event));
  return { keep, disk, events };
}

function wholenessOf(bytes: Uint8Array): Wholeness {
  const match = /^SIZE (\d+)\n/.exec(new TextDecoder('latin1').decode(bytes.subarray(0, 20)));
  if (match === null) return { kind: 'unknown' };
  const expectedBytes = Number(match[1]);
  return bytes.length < expectedBytes ? { kind: 'cut', expectedBytes } : { kind: 'whole' };
}

export const fromStart: OpenHow = { via: 'ftp', at: 'start', announcedBytes: null };

export const fromOffset = (offsetBytes: number): OpenHow => ({ ...fromStart, at: { offsetBytes } });

/** Sends bytes in pieces of 50 and ends. */
export async function send(
  keep: Keep,
  path: string,
  bytes: Uint8Array,
  end: ArrivalEnd = 'closed',
  how: OpenHow = fromStart,
): Promise<ArrivalOutcome> {
  const arrival = await keep.folderOf('cam1').open(path, how);
  return sendOn(arrival, bytes, end);
}

export async function sendOn(
  arrival: Arrival,
  bytes: Uint8Array,
  end: ArrivalEnd = 'closed',
): Promise<ArrivalOutcome> {
  const writes: Promise<void>[] = [];
  for (let start = 0; start < bytes.length; start += 50) {
    writes.push(arrival.write(bytes.slice(start, start + 50)));
  }
  await Promise.allSettled(writes);
  return arrival.finish(end);
}

/** Originals on the disk, below the camera's folder, with their bytes. */
export function originalsOn(disk: SimulatedDisk): Map<string, Uint8Array> {
  const folder = `${home}/jobs/QM-26/originals/cam1/`;
  return new Map(
    disk
      .files()
      .filter((path) => path.startsWith(folder))
      .map((path) => [path.slice(folder.length), disk.bytesOf(path) ?? new Uint8Array(0)]),
  );
}

export async function recordsOf(keep: Keep, afterSeq?: number): Promise<JournalRecord[]> {
  const records: JournalRecord[] = [];
  for await (const record of keep.records(afterSeq)) records.push(record);
  return records;
}
