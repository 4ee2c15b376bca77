import type { EpochMs } from '../base/index.ts';
import { bytesPerSecond, type LineSpeed, noSpeed, withProgress } from './core/line-speed.ts';

/** What is known of a file only while it arrives; the register has the rest. */
export interface LiveArrival {
  readonly bytes: number;
  /** What the structure announces, or the client did. */
  readonly expectedBytes: number | null;
  readonly bytesPerSecond: number | null;
  /** When it began to arrive, or to arrive again. */
  readonly startedMs: EpochMs;
}

interface Entry {
  readonly bytes: number;
  readonly announcedBytes: number | null;
  readonly structureBytes: number | null;
  readonly speed: LineSpeed;
  readonly startedMs: EpochMs;
}

/** The files arriving now, by arrival. */
export class LiveArrivals {
  readonly #entries = new Map<string, Entry>();

  started(arrival: string, bytes: number, announcedBytes: number | null, atMs: EpochMs): void {
    const speed = withProgress(noSpeed, atMs, bytes);
    this.#entries.set(arrival, { bytes, announcedBytes, structureBytes: null, speed, startedMs: atMs });
  }

  progress(arrival: string, bytes: number, atMs: EpochMs): void {
    const entry = this.#entries.get(arrival);
    if (entry === undefined) return;
    this.#entries.set(arrival, { ...entry, bytes, speed: withProgress(entry.speed, atMs, bytes) });
  }

  /** The structure says how long the file must become. */
  announced(arrival: string, structureBytes: number | null): void {
    const entry = this.#entries.get(arrival);
    if (entry !== undefined) this.#entries.set(arrival, { ...entry, structureBytes });
  }

  ended(arrival: string): void {
    this.#entries.delete(arrival);
  }

  get(arrival: string): LiveArrival | null {
    const entry = this.#entries.get(arrival);
    if (entry === undefined) return null;
    return {
      bytes: entry.bytes,
      // The structure is the camera's own word on this very file; an ALLO may be rounded up, or be for another one.
      expectedBytes: entry.structureBytes ?? announcedBeyond(entry.announcedBytes, entry.bytes),
      bytesPerSecond: bytesPerSecond(entry.speed),
      startedMs: entry.startedMs,
    };
  }
}

/** What a client announced, where it can be the whole of it: null once more than that has come, or nothing was announced. */
export function announcedBeyond(announcedBytes: number | null, bytes: number): number | null {
  return announcedBytes !== null && announcedBytes >= bytes ? announcedBytes : null;
}
