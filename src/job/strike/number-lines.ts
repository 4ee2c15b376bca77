import {
  counterGaps,
  countingOf,
  gapMax,
  isXmpName,
  namePrefix,
  numberAfter,
  numbersOn,
} from '../../base/index.ts';
import type { StrikeFrame } from './strike-frame.ts';
import { lineOf, type StrikeLine } from './strike-line.ts';
import type { CardNumber, LastNumber } from './strike-state.ts';

/** What counts frames of the job: one camera, or one of several that share a log-in. */
export interface StrikeCamera {
  readonly camera: string;
  readonly prefix: string;
  readonly frames: number;
  /** The newest by the order of the day that has a number; null where no name holds one. */
  readonly newest: { readonly name: string; readonly counter: number } | null;
  /** What somebody read off the camera, or a card check found, whichever is later; null while neither is. */
  readonly said: SaidNumber | null;
}

export interface SaidNumber extends LastNumber {
  /** `card`: by a card check, and `by` is empty. */
  readonly how: 'read-off' | 'card';
}

/** Frames that are in the job or not, in the order of the day. */
export interface NumberedFrames {
  readonly frames: readonly StrikeFrame[];
  /** Frames of the same cameras in other jobs and in the tray: a number that came there is not missing. */
  readonly elsewhere: Parameters<typeof counterGaps>[1];
}

export function strikeCameras(
  { frames }: Pick<NumberedFrames, 'frames'>,
  lastNumbers: readonly LastNumber[],
  cardNumbers: readonly CardNumber[],
): StrikeCamera[] {
  const all: readonly SaidNumber[] = [
    ...lastNumbers.map((each) => ({ ...each, how: 'read-off' as const })),
    ...cardNumbers.map((each) => ({ ...each, by: '', how: 'card' as const })),
  ];
  const found = new Map<string, StrikeCamera>();
  for (const { camera, name, counter } of frames) {
    // A sidecar without its picture is no frame that a camera counted.
    if (isXmpName(name)) continue;
    const prefix = counter === null ? '' : namePrefix(name);
    const key = `${camera} ${counter === null ? '-' : prefix}`;
    const known = found.get(key);
    found.set(key, {
      camera,
      prefix,
      frames: (known?.frames ?? 0) + 1,
      newest: counter === null ? null : { name, counter },
      said:
        counter === null
          ? null
          : latest(all.filter((each) => each.camera === camera && each.prefix === prefix)),
    });
  }
  return [...found.values()];
}

function latest(said: readonly SaidNumber[]): SaidNumber | null {
  return said.reduce<SaidNumber | null>(
    (best, each) => (best === null || each.atMs > best.atMs ? each : best),
    null,
  );
}

/**
 * Numbers that are missing, or may be: between frames that came, and after the last one. No later number shows that gap, so
 * the camera's own last number is asked for.
 */
export function numberLines(numbered: NumberedFrames, cameras: readonly StrikeCamera[]): StrikeLine[] {
  const gaps = counterGaps(numbered.frames, numbered.elsewhere).map(({ camera, prefix, from, to, count }) =>
    lineOf({
      cost: 'card',
      counting: { camera, prefix },
      explainable: true,
      finding: { code: 'strike.gap', args: { camera, from, to, count } },
    }),
  );
  return [...gaps, ...cameras.flatMap((camera) => endLines(camera, numbered))];
}

function endLines(
  { camera, prefix, frames, newest, said }: StrikeCamera,
  numbered: NumberedFrames,
): StrikeLine[] {
  const of = { cost: 'card', counting: { camera, prefix }, explainable: true } as const;
  if (newest === null)
    return [
      lineOf({
        ...of,
        counting: null,
        finding: { code: 'strike.no-numbers', args: { camera, count: frames } },
      }),
    ];
  const { name, counter } = newest;
  if (said === null)
    return [lineOf({ ...of, finding: { code: 'strike.number-wanted', args: { camera, name } } })];
  const missing = numbersOn(counter, said.counter);
  if (missing === 0) return [];
  // Further on than any gap: frames came after it was read off, or another card is in.
  if (missing > gapMax)
    return [
      lineOf({
        ...of,
        finding: { code: 'strike.number-behind', args: { camera, name, said: said.counter } },
      }),
    ];
  return gapsToTheEnd(countingOf({ camera, name }), said.counter, numbered).map(({ from, to, count }) =>
    lineOf({ ...of, finding: { code: 'strike.numbers-missing', args: { camera, from, to, count } } }),
  );
}

/** After the newest frame up to the camera's last number. What came earlier in the day, since a clock was off, is not missing. */
function gapsToTheEnd(
  counting: string,
  last: number,
  { frames, elsewhere = [] }: NumberedFrames,
): ReturnType<typeof counterGaps> {
  const own = frames.filter((frame) => frame.counter !== null && countingOf(frame) === counting);
  const newest = own.at(-1);
  if (newest === undefined) return [];
  const cameMs = own.reduce((least, frame) => Math.min(least, frame.cameMs), newest.cameMs);
  const end = { ...newest, id: 'the end', counter: numberAfter(last) };
  return counterGaps([{ ...newest, cameMs }, end], [...frames, ...elsewhere]);
}
