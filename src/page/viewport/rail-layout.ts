import { leastMove } from './least-move.ts';

/** One frame to be placed on the arrival rail. */
export interface RailItem {
  readonly id: string;
  /** Epoch milliseconds of the shutter, or of the first byte. */
  readonly momentMs: number;
  /** Epoch milliseconds at which a burst ended. */
  readonly untilMs?: number;
  /** Which camera's lane, from 0. */
  readonly lane: number;
  readonly heightCssPx: number;
}

export interface RailPlace {
  readonly id: string;
  readonly lane: number;
  readonly momentMs: number;
  /** Where the moment truly lies on the time axis. */
  readonly momentCssPx: number;
  /** Where a burst ended; the same as `momentCssPx` for a single frame. */
  readonly untilCssPx: number;
  /** Where the small picture lies; moved off its moment only as far as its neighbours need room. */
  readonly topCssPx: number;
  readonly heightCssPx: number;
}

/** A piece of the axis that runs at the rail's true scale. */
export interface RailStretch {
  readonly fromMs: number;
  readonly toMs: number;
  readonly fromCssPx: number;
  readonly toCssPx: number;
}

/** A time in which nothing was taken, drawn shorter than it was and labelled with its length. */
export interface RailPause {
  readonly lengthMs: number;
  readonly fromCssPx: number;
  readonly toCssPx: number;
}

export interface RailLayout {
  readonly places: readonly RailPlace[];
  readonly stretches: readonly RailStretch[];
  readonly pauses: readonly RailPause[];
  readonly heightCssPx: number;
  /** The true scale of every stretch. */
  readonly cssPxPerSecond: number;
}

/** Between two small pictures of one lane. */
const spacingCssPx = 10;
/** Above the first and below the last. */
const marginCssPx = 14;
/** A pause that would take more room than this at the true scale is cut to `pauseCssPx`. */
const pauseKeptCssPx = 260;
const pauseCssPx = 64;
/** The axis reaches this far past the first and last moment of a stretch. */
const overhangCssPx = 12;
/**
 * Scales to choose from. Few and far apart, so that the scale does not breathe with every frame: a rail of one frame
 * a minute and a rail of a burst differ, two rails of the same afternoon seldom do.
 */
const scalesCssPxPerSecond: readonly number[] = [0.5, 2, 8, 32];
/** The rhythm that sets the scale is that of the newest frames. */
const rhythmFrames = 40;

/**
 * Places frames on a vertical axis of time running down at one true scale. Where frames are crowded, their pictures
 * are moved apart by the least total (squared) distance and keep a leader to their moment; where nothing happened for
 * long, the axis is cut. `items` in any order; `newest last` in the answer.
 */
export function layoutRail(items: readonly RailItem[]): RailLayout {
  const sorted = [...items].sort((one, other) => one.momentMs - other.momentMs);
  const cssPxPerSecond = scaleFor(sorted);
  const places: RailPlace[] = [];
  const stretches: RailStretch[] = [];
  const pauses: RailPause[] = [];
  let cursor = marginCssPx;
  for (const group of splitAtPauses(sorted, cssPxPerSecond)) {
    const before = stretches.at(-1);
    const placed = placeGroup(group, cssPxPerSecond, cursor);
    places.push(...placed.places);
    stretches.push(placed.stretch);
    if (before !== undefined) pauses.push(pauseBetween(before, placed.stretch));
    cursor = placed.endCssPx + pauseCssPx;
  }
  const heightCssPx = places.length === 0 ? 0 : cursor - pauseCssPx + marginCssPx;
  return { places, stretches, pauses, heightCssPx, cssPxPerSecond };
}

/** The smallest scale at which the usual step between frames of one lane leaves room for a picture. */
function scaleFor(sorted: readonly RailItem[]): number {
  const newest = sorted.slice(-rhythmFrames);
  const steps = newest
    .map((item, index) => item.momentMs - (newest[index - 1]?.momentMs ?? item.momentMs))
    .slice(1)
    .sort((one, other) => one - other);
  const usualS = (steps[Math.floor(steps.length / 2)] ?? 60_000) / 1000;
  const heights = newest.map(({ heightCssPx }) => heightCssPx).sort((one, other) => one - other);
  const roomCssPx = (heights[Math.floor(heights.length / 2)] ?? 0) + spacingCssPx;
  const most = scalesCssPxPerSecond.at(-1) ?? 1;
  return scalesCssPxPerSecond.find((scale) => usualS * scale >= roomCssPx * 0.8) ?? most;
}

function splitAtPauses(sorted: readonly RailItem[], cssPxPerSecond: number): RailItem[][] {
  const groups: RailItem[][] = [];
  let endMs = Number.NEGATIVE_INFINITY;
  for (const item of sorted) {
    const group = groups.at(-1);
    const apartCssPx = ((item.momentMs - endMs) / 1000) * cssPxPerSecond;
    if (group === undefined || apartCssPx > pauseKeptCssPx) groups.push([item]);
    else group.push(item);
    endMs = Math.max(endMs, endOf(item));
  }
  return groups;
}

interface PlacedGroup {
  readonly places: readonly RailPlace[];
  readonly stretch: RailStretch;
  readonly endCssPx: number;
}

function placeGroup(group: readonly RailItem[], cssPxPerSecond: number, startCssPx: number): PlacedGroup {
  const fromMs = group[0]?.momentMs ?? 0;
  const toMs = Math.max(fromMs, ...group.map(endOf));
  const offsetOf = (momentMs: number): number => ((momentMs - fromMs) / 1000) * cssPxPerSecond;
  const centres = centresByLane(group, offsetOf);
  const tops = group.map((item) => (centres.get(item.id) ?? 0) - item.heightCssPx / 2);
  const highest = Math.min(-overhangCssPx, ...tops);
  const origin = startCssPx - highest;
  const places = group.map((item, index) => ({
    id: item.id,
    lane: item.lane,
    momentMs: item.momentMs,
    momentCssPx: origin + offsetOf(item.momentMs),
    untilCssPx: origin + offsetOf(endOf(item)),
    topCssPx: Math.round(origin + (tops[index] ?? 0)),
    heightCssPx: item.heightCssPx,
  }));
  const stretch = { fromMs, toMs, fromCssPx: origin, toCssPx: origin + offsetOf(toMs) };
  const lowest = Math.max(
    stretch.toCssPx + overhangCssPx,
    ...places.map((place) => place.topCssPx + place.heightCssPx),
  );
  return { places, stretch, endCssPx: lowest };
}

function centresByLane(
  group: readonly RailItem[],
  offsetOf: (momentMs: number) => number,
): ReadonlyMap<string, number> {
  const centres = new Map<string, number>();
  for (const lane of new Set(group.map((item) => item.lane))) {
    const inLane = group.filter((item) => item.lane === lane);
    const moved = leastMove(
      inLane.map((item) => ({
        wished: offsetOf((item.momentMs + endOf(item)) / 2),
        size: item.heightCssPx,
      })),
      spacingCssPx,
    );
    inLane.forEach((item, index) => {
      centres.set(item.id, moved[index] ?? 0);
    });
  }
  return centres;
}

function endOf({ momentMs, untilMs }: RailItem): number {
  return untilMs ?? momentMs;
}

function pauseBetween(before: RailStretch, after: RailStretch): RailPause {
  return {
    lengthMs: after.fromMs - before.toMs,
    fromCssPx: before.toCssPx + overhangCssPx,
    toCssPx: after.fromCssPx - overhangCssPx,
  };
}
