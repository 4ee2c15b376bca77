import type { EpochMs } from '../base/index.ts';

/** One frame as the search for series needs it. */
export interface TimedFrame {
  readonly id: string;
  readonly camera: string;
  /** Corrected shutter time. */
  readonly shutterMs: EpochMs;
  /** Whether the camera tells parts of a second; else the time may be up to one second late. */
  readonly subSecondsKnown: boolean;
  /** Exposure time, s; aperture N of f/N; sensitivity: null where the camera does not say. */
  readonly exposureTimeS: number | null;
  readonly fNumber: number | null;
  readonly sensitivity: number | null;
}

export interface Series {
  readonly kind: 'burst' | 'bracket';
  readonly camera: string;
  /** In the order of the shutter; two at least. */
  readonly frames: readonly string[];
  /** Of a bracket: from one exposure to the next, EV. */
  readonly stepEv: number | null;
}

/** Frames of a burst begin within one second of each other (glossary). */
export const burstGapMs = 1000;
/** A bracket waits for the card and for long exposures; a person who presses again by hand takes longer (common practice, no source). */
export const bracketGapMs = 2000;
/** Cameras offer brackets of 3 to 9 frames (common practice, no source). */
export const bracketFramesMin = 3;
export const bracketFramesMax = 9;
/** Nominal times and apertures are rounded from thirds of a stop: 1/60 for 1/64, f/5.6 for f/5.657. */
export const evErrorMax = 0.15;
/** The finest step a camera brackets by is a third of a stop. */
export const bracketStepEvMin = 0.28;

/**
 * Exposure of a frame in EV at ISO 100: log2(N² / t) - log2(S / 100), Av + Tv - (Sv - Sv100) of the APEX system
 * (Exif 2.32, annex C). Null where the camera does not say enough.
 */
export function exposureEv({ exposureTimeS, fNumber, sensitivity }: TimedFrame): number | null {
  if (exposureTimeS === null || fNumber === null || sensitivity === null) return null;
  return Math.log2(fNumber ** 2 / exposureTimeS) - Math.log2(sensitivity / 100);
}

/**
 * The bursts and brackets among frames of any cameras. A bracket is 3 to 9 frames that follow each other and whose
 * exposures, put in order, are equal steps apart; a burst is what follows within one second and is no bracket.
 * Frames may come in any order.
 */
export function findSeries(frames: readonly TimedFrame[]): Series[] {
  const cameras = new Map<string, TimedFrame[]>();
  for (const frame of frames) cameras.set(frame.camera, [...(cameras.get(frame.camera) ?? []), frame]);
  return [...cameras.values()].flatMap((own) =>
    runsOf([...own].sort((a, b) => a.shutterMs - b.shutterMs || (a.id < b.id ? -1 : 1))).flatMap(seriesOfRun),
  );
}

/** Runs in which each frame follows the one before closely enough for any series. */
function runsOf(frames: readonly TimedFrame[]): TimedFrame[][] {
  const runs: TimedFrame[][] = [];
  for (const frame of frames) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run !== undefined && before !== undefined && gapMs(before, frame) <= bracketGapMs) run.push(frame);
    else runs.push([frame]);
  }
  return runs;
}

/** From the end of one exposure to the next shutter, at least; whole seconds are taken at their latest. */
function gapMs(before: TimedFrame, frame: TimedFrame): number {
  const exposureMs = (before.exposureTimeS ?? 0) * 1000;
  const unsureMs = before.subSecondsKnown && frame.subSecondsKnown ? 0 : 999;
  return Math.max(0, frame.shutterMs - before.shutterMs - exposureMs - unsureMs);
}

function seriesOfRun(run: readonly TimedFrame[]): Series[] {
  const series: Series[] = [];
  let rest: TimedFrame[] = [];
  for (let at = 0; at < run.length; ) {
    const bracket = bracketAt(run, at);
    const frame = run[at];
    if (frame === undefined) break;
    if (bracket === null) {
      rest.push(frame);
      at += 1;
      continue;
    }
    series.push(...burstsOf(rest), bracket);
    rest = [];
    at += bracket.frames.length;
  }
  return [...series, ...burstsOf(rest)];
}

/** The longest bracket that begins here. */
function bracketAt(run: readonly TimedFrame[], at: number): Series | null {
  const longest = Math.min(bracketFramesMax, run.length - at);
  for (let count = longest; count >= bracketFramesMin; count -= 1) {
    const frames = run.slice(at, at + count);
    const stepEv = equalStepEv(frames);
    if (stepEv !== null) return seriesOf('bracket', frames, stepEv);
  }
  return null;
}

/** The step between the exposures put in order, or null where they are not equal steps of different exposures. */
function equalStepEv(frames: readonly TimedFrame[]): number | null {
  const values = frames.map(exposureEv).filter((ev) => ev !== null);
  if (values.length !== frames.length) return null;
  const ordered = values.sort((a, b) => a - b);
  const first = ordered[0] ?? 0;
  const stepEv = ((ordered.at(-1) ?? 0) - first) / (ordered.length - 1);
  if (stepEv < bracketStepEvMin) return null;
  return ordered.every((ev, index) => Math.abs(ev - first - index * stepEv) <= evErrorMax) ? stepEv : null;
}

function burstsOf(frames: readonly TimedFrame[]): Series[] {
  const bursts: TimedFrame[][] = [];
  for (const frame of frames) {
    const burst = bursts.at(-1);
    const before = burst?.at(-1);
    if (burst !== undefined && before !== undefined && frame.shutterMs - before.shutterMs <= burstGapMs)
      burst.push(frame);
    else bursts.push([frame]);
  }
  return bursts.filter(({ length }) => length > 1).map((burst) => seriesOf('burst', burst, null));
}

function seriesOf(kind: Series['kind'], frames: readonly TimedFrame[], stepEv: number | null): Series {
  const camera = frames[0]?.camera ?? '';
  return { kind, camera, frames: frames.map(({ id }) => id), stepEv };
}
