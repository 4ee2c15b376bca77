import type { RailPlace } from '../viewport/index.ts';
import { laneLeft } from './rail-items.ts';
import type { RailMeasures } from './rail-measures.ts';

/** A mark on the axis at a frame's moment; on the thread of a further lane it is shorter. */
export const tickCssPx = 8;
const threadTickCssPx = 3;
/** A leader meets its picture no nearer to a corner than this. */
const cornerCssPx = 10;
/** The line along the pictures of a burst stands this far from them. */
const burstLineCssPx = 4;
/** Edges of a burst's piece of the axis are at least this far apart, so that it is seen as one. */
const burstCssPxMin = 3;

/** Where the axis of a lane stands: the ruler's edge for the first, a thread of its own beside each further one. */
export function laneAxisLeft(lane: number, measures: RailMeasures): number {
  return lane === 0
    ? measures.insetCssPx + measures.rulerCssPx
    : laneLeft(lane, measures) - measures.threadCssPx;
}

/**
 * From a frame's moment on its lane's axis to its picture: level wherever the picture reaches past its moment, and so
 * most of them are; slanted only as far as the picture had to give way. A burst's pictures have one line along them all,
 * and a bracket round its time.
 */
export function leaderPath(place: RailPlace, measures: RailMeasures): string {
  const { momentCssPx, untilCssPx, topCssPx, heightCssPx } = place;
  const axis = laneAxisLeft(place.lane, measures);
  const outer = axis - (place.lane === 0 ? tickCssPx : threadTickCssPx);
  const picture = laneLeft(place.lane, measures);
  if (untilCssPx <= momentCssPx) {
    const pictureCssPx = Math.min(heightCssPx, measures.frame.pictureCssPx);
    const meet = within(momentCssPx, topCssPx + cornerCssPx, topCssPx + pictureCssPx - cornerCssPx);
    return `M${outer} ${momentCssPx}${legs(axis, picture, meet)}`;
  }
  const until = Math.max(untilCssPx, momentCssPx + burstCssPxMin);
  const middle = (momentCssPx + until) / 2;
  const line = picture - burstLineCssPx;
  const meet = within(middle, topCssPx + cornerCssPx, topCssPx + heightCssPx - cornerCssPx);
  return [
    `M${outer} ${momentCssPx}H${axis}V${until}H${outer}`,
    `M${axis} ${middle}${legs(axis, line, meet)}`,
    `M${line} ${topCssPx}V${topCssPx + heightCssPx}`,
    `M${line} ${meet}H${picture}`,
  ].join('');
}

/** A level piece at either end, so that it is seen what each belongs to, and between them whatever slant is needed. */
function legs(from: number, to: number, toHeight: number): string {
  const leg = (to - from) / 4;
  return `H${from + leg}L${to - leg} ${toHeight}H${to}`;
}

function within(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), Math.max(least, most));
}
