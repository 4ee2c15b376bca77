import type { EpochMs } from '../../base/index.ts';
import { isRehearsalPicture } from '../../facts/index.ts';
import type { KeepEvent } from '../../keep/index.ts';
import { type ArrivedFile, bytesMin, filesMax, type LineSpeed, speedOf } from '../../line/index.ts';
import type { FrameRow } from '../../register/index.ts';

/** What the register knows of a file's frame. */
export type FrameSeen = Pick<FrameRow, 'name' | 'kind' | 'files' | 'times'>;

interface Arrival {
  readonly frame: string;
  readonly name: string;
  readonly bytes: number;
  readonly firstByteMs: EpochMs;
  readonly lastByteMs: EpochMs;
}

/** After `formats`' kinds. */
const rawKinds: ReadonlySet<string> = new Set(['dng', 'tiff-raw', 'iso-bmff-raw', 'raf']);

/** How fast each camera's newest files came, from the first byte to the last, and what that means. */
export class ArrivalSpeeds {
  readonly #arrivals = new Map<string, readonly Arrival[]>();

  hear(event: KeepEvent): void {
    if (event.type !== 'kept' || event.firstByteMs === null || event.lastByteMs === null) return;
    // What a rehearsal sent came from another device than the camera.
    if (event.sizeBytes < bytesMin || isRehearsalPicture(event.name)) return;
    const { frame, name, sizeBytes: bytes, firstByteMs, lastByteMs } = event;
    const arrival = { frame, name, bytes, firstByteMs, lastByteMs };
    this.#arrivals.set(event.camera, [...(this.#arrivals.get(event.camera) ?? []), arrival].slice(-filesMax));
  }

  /** Bytes a second, the median; null where nothing of size has come since the start. */
  of(camera: string): number | null {
    const arrived = (this.#arrivals.get(camera) ?? []).map((arrival) => fileOf(arrival, null));
    return speedOf(arrived)?.bytesPerSecond ?? null;
  }

  /** What it means for each camera of which something of size has come since the start. */
  async meanings(
    frameOf: (frame: string) => Promise<FrameSeen | null>,
  ): Promise<ReadonlyMap<string, LineSpeed>> {
    const meanings = new Map<string, LineSpeed>();
    for (const [camera, arrivals] of this.#arrivals) {
      const arrived = await Promise.all(
        arrivals.map(async (arrival) => fileOf(arrival, await frameOf(arrival.frame))),
      );
      const speed = speedOf(arrived);
      if (speed !== null) meanings.set(camera, speed);
    }
    return meanings;
  }
}

/** Of a frame of several files nobody can say which was seen first: its first view is left out. */
function fileOf({ name, bytes, firstByteMs, lastByteMs }: Arrival, seen: FrameSeen | null): ArrivedFile {
  const isAlone = seen?.files.length === 1;
  return {
    ...{ bytes, firstByteMs, lastByteMs },
    kind: kindOf(name, seen),
    firstViewMs: isAlone ? seen.times.firstViewMs : null,
  };
}

function kindOf(name: string, seen: FrameSeen | null): ArrivedFile['kind'] {
  if (/\.jpe?g$/i.test(name)) return 'jpeg';
  return seen?.name === name && seen.kind !== null && rawKinds.has(seen.kind) ? 'raw' : 'other';
}
