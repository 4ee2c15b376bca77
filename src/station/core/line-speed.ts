/** How fast bytes come in: a short memory of (moment, bytes) points, as a value. */
export interface LineSpeed {
  readonly points: readonly { readonly atMs: number; readonly bytes: number }[];
}

export const noSpeed: LineSpeed = { points: [] };

/** Long enough to be calm over Wi-Fi's gaps, short enough to follow a person walking away with the camera. */
const memoryMs = 3000;

/** The memory with one more point; points older than three seconds are forgotten, two are always kept. */
export function withProgress(speed: LineSpeed, atMs: number, bytes: number): LineSpeed {
  const points = [...speed.points, { atMs, bytes }];
  const fresh = points.filter((point) => atMs - point.atMs <= memoryMs);
  return { points: fresh.length >= 2 ? fresh : points.slice(-2) };
}

/** Bytes per second over the memory, or null while there is nothing to divide by. */
export function bytesPerSecond(speed: LineSpeed): number | null {
  const first = speed.points[0];
  const last = speed.points.at(-1);
  if (first === undefined || last === undefined || last.atMs <= first.atMs) return null;
  return ((last.bytes - first.bytes) / (last.atMs - first.atMs)) * 1000;
}
