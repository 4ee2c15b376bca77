import { percentile } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { ReportFrame } from './report-frame.ts';

/** What was waited for, and from when on. */
export const timeSteps = ['shutter-view', 'shutter-rendering', 'byte-view', 'byte-rendering'] as const;
export type TimeStepName = (typeof timeSteps)[number];

export interface TimeStep {
  readonly step: TimeStepName;
  /** Seconds, the shortest first. */
  readonly seconds: readonly number[];
  /** Null where there are too few frames to tell: a tail of one frame in ten wants ten frames, one in a hundred a hundred. */
  readonly p50S: number | null;
  readonly p90S: number | null;
  readonly p99S: number | null;
  readonly maxS: number | null;
}

export interface ReportTimes {
  /** Every step, those that nothing is known of too. */
  readonly steps: readonly TimeStep[];
  /** How far the shutter's moment is to be believed, and what was left out. */
  readonly doubts: readonly Finding[];
}

/** What was said or seen of a camera's clock. */
export interface ReportClock {
  readonly camera: string;
  /** How far it may be off after that, ms; null where nobody compared it with the station's. */
  readonly plusMinusMs: number | null;
  /** Whether somebody said by how much it goes wrong, be it nought. */
  readonly said: boolean;
}

/** Fewest frames that a share of them can be told of: one beyond it (common practice, no source). */
const fewest = { p50: 2, p90: 10, p99: 100 } as const;

/**
 * How long people waited. Only frames that came by a camera's own upload count. The shutter's moment is the camera's
 * word: where a picture was here before it was taken, that camera's clock is ahead, and none of its times from the shutter count.
 */
export function reportTimes(frames: readonly ReportFrame[], clocks: readonly ReportClock[]): ReportTimes {
  const uploaded = frames.filter(({ fromFolder }) => !fromFolder);
  const timed = uploaded.filter(({ shutter }) => shutter !== null);
  const ahead = aheadMs(timed, clocks);
  const believed = timed.filter(({ camera }) => !ahead.has(camera));
  return {
    steps: [
      stepOf('shutter-view', believed, ({ shutter, times }) => [shutter?.atMs, times.firstViewMs]),
      stepOf('shutter-rendering', believed, ({ shutter, times }) => [shutter?.atMs, times.renderedMs]),
      stepOf('byte-view', uploaded, ({ times }) => [times.firstByteMs, times.firstViewMs]),
      stepOf('byte-rendering', uploaded, ({ times }) => [times.firstByteMs, times.renderedMs]),
    ],
    doubts: [
      ...[...ahead].map(([camera, ms]) => doubt('clock-ahead', { camera, seconds: ms / 1000 })),
      ...clockDoubts(believed, clocks),
      ...counted('whole-seconds', believed, ({ shutter }) => shutter?.subSecondsKnown === false),
      ...counted('zone-assumed', believed, ({ shutter }) => shutter?.offsetKnown === false),
      ...counted('no-shutter', uploaded, ({ shutter }) => shutter === null),
      ...counted('from-folder', frames, ({ fromFolder }) => fromFolder),
    ],
  };
}

type Moment = number | null | undefined;

function stepOf(
  step: TimeStepName,
  frames: readonly ReportFrame[],
  ends: (frame: ReportFrame) => readonly [from: Moment, to: Moment],
): TimeStep {
  const seconds = frames
    .flatMap((frame) => {
      const [from, to] = ends(frame);
      return typeof from === 'number' && typeof to === 'number' ? (to - from) / 1000 : [];
    })
    .sort((a, b) => a - b);
  const at = (share: number, least: number): number | null =>
    seconds.length < least ? null : percentile(seconds, share);
  return {
    step,
    seconds,
    p50S: at(0.5, fewest.p50),
    p90S: at(0.9, fewest.p90),
    p99S: at(0.99, fewest.p99),
    maxS: seconds.at(-1) ?? null,
  };
}

/** Cameras with a picture that was here before it was taken, further than its clock is known, and by how much at most, ms. */
function aheadMs(timed: readonly ReportFrame[], clocks: readonly ReportClock[]): ReadonlyMap<string, number> {
  const slackMs = new Map(clocks.map(({ camera, plusMinusMs }) => [camera, plusMinusMs ?? 0]));
  const ahead = new Map<string, number>();
  for (const { camera, shutter, times } of timed) {
    const hereMs = times.firstByteMs ?? times.firstViewMs;
    if (shutter === null || hereMs === null) continue;
    const ms = shutter.atMs - hereMs;
    if (ms > (slackMs.get(camera) ?? 0)) ahead.set(camera, Math.max(ahead.get(camera) ?? 0, ms));
  }
  return ahead;
}

function clockDoubts(believed: readonly ReportFrame[], clocks: readonly ReportClock[]): Finding[] {
  return [...new Set(believed.map(({ camera }) => camera))].map((camera) => {
    const clock = clocks.find((each) => each.camera === camera);
    if (clock?.plusMinusMs != null)
      return doubt('clock-compared', { camera, seconds: clock.plusMinusMs / 1000 });
    return doubt(clock?.said === true ? 'clock-said' : 'clock-not-compared', { camera });
  });
}

function counted(
  code: string,
  frames: readonly ReportFrame[],
  is: (frame: ReportFrame) => boolean,
): Finding[] {
  const count = frames.filter(is).length;
  return count === 0 ? [] : [doubt(code, { count })];
}

function doubt(code: string, args: Finding['args']): Finding {
  return { code: `report.${code}`, args };
}
