import type { KeepEvent } from '../../keep/index.ts';

/** Shorter arrivals say more of the camera's pauses than of the line. */
const bytesMin = 500_000;
/** As many of a camera's newest arrivals as the median is taken of. */
const arrivalsMax = 9;

/** How fast each camera's newest files came, from the first byte to the last. */
export class ArrivalSpeeds {
  readonly #speeds = new Map<string, readonly number[]>();

  hear(event: KeepEvent): void {
    if (event.type !== 'kept' || event.firstByteMs === null || event.lastByteMs === null) return;
    const ms = event.lastByteMs - event.firstByteMs;
    if (event.sizeBytes < bytesMin || ms <= 0) return;
    const speeds = [...(this.#speeds.get(event.camera) ?? []), (event.sizeBytes / ms) * 1000];
    this.#speeds.set(event.camera, speeds.slice(-arrivalsMax));
  }

  /** Bytes a second, the median; null where nothing of size has come since the start. */
  of(camera: string): number | null {
    const speeds = [...(this.#speeds.get(camera) ?? [])].sort((one, other) => one - other);
    return speeds[Math.floor(speeds.length / 2)] ?? null;
  }
}
