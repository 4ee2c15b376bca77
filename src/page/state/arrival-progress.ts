import type { Frame } from '../../contract/index.ts';

/** How far a frame on its way is, over all its files. */
export interface ArrivalProgress {
  readonly bytes: number;
  /** 0 to 1, null while nobody has announced the size. */
  readonly share: number | null;
  readonly bytesPerSecond: number | null;
  /** Seconds to go at the present speed, null where it cannot be said. */
  readonly secondsToGo: number | null;
}

export function arrivalProgress(frame: Frame): ArrivalProgress {
  const coming = frame.files.filter((file) => file.state === 'arriving' || file.state === 'broken-off');
  const bytes = sum(coming.map((file) => file.size));
  const announced = coming.every((file) => file.expectedSize !== null);
  const expected = sum(coming.map((file) => file.expectedSize ?? 0));
  const bytesPerSecond = coming.some((file) => file.bytesPerSecond !== null)
    ? sum(coming.map((file) => file.bytesPerSecond ?? 0))
    : null;
  const share = announced && expected > 0 ? Math.min(1, bytes / expected) : null;
  const canTell = share !== null && bytesPerSecond !== null && bytesPerSecond > 0;
  const secondsToGo = canTell ? Math.max(0, expected - bytes) / bytesPerSecond : null;
  return { bytes, share, bytesPerSecond, secondsToGo };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
