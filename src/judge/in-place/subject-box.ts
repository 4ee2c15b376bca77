import type { NoSubjectReason, ShareBox, SubjectBox } from '../../facts/index.ts';
import { offSurface } from '../kernels/fit-surface.ts';
import { markWithin } from '../kernels/mark-within.ts';
import { nthSmallest } from '../kernels/nth-smallest.ts';
import { boundsOfRest, reachFromBorder } from '../kernels/reach.ts';
import { type Level, noiseOf, pyramidOf } from './level.ts';
import type { PlacePlane } from './place-plane.ts';
import { surfaceThrough } from './surface.ts';

/** The size it is read at: a box then is right within a quarter of a per cent of the frame. */
const edgePxMax = 400;
const edgePxMin = 24;
/** How far in from the border the backdrop is looked for, share of the longer edge. */
const ringShare = 0.025;
/** Less of the ring, or of three of its sides, on one smooth surface is no plain backdrop. */
const plainMin = 0.6;
/** Stops from the surface, fit by fit: first anything near, then what is backdrop for certain. */
const ringTolerances = [1, 0.5, 0.3, 0.2];
/** Weaker than this, stops, nothing stands out from a backdrop; or deviations of noise, where there is more. */
const standsOutStops = 0.2;
const standsOutNoise = 6;
/** Fits of the surface through all that is reached: each reaches further in. */
const rounds = 5;
/** Smaller parts are dust, share of the picture. */
const speckShare = 5e-4;

/**
 * The bounds of what stands before a plain backdrop. The backdrop is a smooth surface of light (second order, stops)
 * through the border; the subject is what cannot be reached from there over places that lie on it. A shadow that stands
 * out counts in; a subject that is as light as its backdrop is not seen.
 */
export function readSubject(plane: PlacePlane): SubjectBox | { readonly unknown: NoSubjectReason } {
  if (Math.min(plane.widthPx, plane.heightPx) < edgePxMin) return { unknown: 'too-small' };
  const levels = pyramidOf(plane);
  const level = levels.find(({ widthPx, heightPx }) => Math.max(widthPx, heightPx) <= edgePxMax);
  if (level === undefined) return { unknown: 'too-small' };
  const tolerance = Math.max(standsOutStops, standsOutNoise * noiseOf(level));
  const surface = ringSurface(level);
  if (surface === null) return { unknown: 'not-plain' };
  const { reached, rest } = reachBackdrop(level, surface, tolerance);
  if (!isPlain(level, rest, tolerance)) return { unknown: 'not-plain' };
  return boxOf(level, reached, plane);
}

/** Through the ring, what lies off it left out step by step. Null where there is nothing to fit. */
function ringSurface(level: Level): Float64Array | null {
  const { data, widthPx, heightPx } = level;
  const ring = new Uint8Array(data.length);
  const rest = new Float32Array(data.length);
  const light = new Float32Array(data.length);
  let count = 0;
  for (let at = 0; at < ring.length; at++) {
    if (sideOf(at, level) === null) continue;
    ring[at] = 1;
    light[count++] = data[at] ?? 0;
  }
  let surface = Float64Array.of(nthSmallest(light, count, count >> 1), 0, 0, 0, 0, 0);
  const near = new Uint8Array(data.length);
  for (const tolerance of ringTolerances) {
    offSurface(data, surface, widthPx, heightPx, rest);
    markWithin(rest, tolerance, near);
    for (let at = 0; at < ring.length; at++) if (ring[at] === 0) near[at] = 0;
    const next = surfaceThrough(level, near);
    if (next === null) return null;
    surface = Float64Array.from(next);
  }
  return surface;
}

/** 0 left, 1 top, 2 right, 3 bottom; null within. */
function sideOf(at: number, { widthPx, heightPx }: Level): 0 | 1 | 2 | 3 | null {
  const ringPx = Math.max(2, Math.round(ringShare * Math.max(widthPx, heightPx)));
  const row = Math.floor(at / widthPx);
  const column = at - row * widthPx;
  const [right, bottom] = [widthPx - 1 - column, heightPx - 1 - row];
  const nearest = Math.min(column, row, right, bottom);
  if (nearest >= ringPx) return null;
  if (nearest === row) return 1;
  if (nearest === bottom) return 3;
  return nearest === column ? 0 : 2;
}

interface Reached {
  readonly reached: Uint8Array;
  /** Light off the surface, stops. */
  readonly rest: Float32Array;
}

function reachBackdrop(level: Level, start: Float64Array, tolerance: number): Reached {
  const { data, widthPx, heightPx } = level;
  const rest = new Float32Array(data.length);
  const reached = new Uint8Array(data.length);
  const queue = new Int32Array(data.length);
  const near = new Uint8Array(data.length);
  let surface = start;
  for (let round = 0; round < rounds; round++) {
    offSurface(data, surface, widthPx, heightPx, rest);
    markWithin(rest, tolerance, near);
    reachFromBorder(near, widthPx, heightPx, queue, reached);
    const next = surfaceThrough(level, reached);
    if (next === null || round === rounds - 1) break;
    surface = next;
  }
  return { reached, rest };
}

/** Whether enough of the ring lies on the surface, in all and on three of its sides: the subject may be cut by one. */
function isPlain(level: Level, rest: Float32Array, tolerance: number): boolean {
  const counts = new Int32Array(4);
  const plain = new Int32Array(4);
  for (let at = 0; at < rest.length; at++) {
    const side = sideOf(at, level);
    if (side === null) continue;
    counts[side] = (counts[side] ?? 0) + 1;
    if (Math.abs(rest[at] ?? 0) < tolerance) plain[side] = (plain[side] ?? 0) + 1;
  }
  const shares = [...plain].map((on, side) => on / Math.max(1, counts[side] ?? 0));
  const all = plain.reduce((sum, on) => sum + on, 0) / counts.reduce((sum, each) => sum + each, 0);
  return all >= plainMin && shares.filter((share) => share >= plainMin).length >= 3;
}

function boxOf(
  { widthPx, heightPx }: Level,
  reached: Uint8Array,
  plane: PlacePlane,
): SubjectBox | { readonly unknown: NoSubjectReason } {
  const bounds = new Int32Array(4);
  const least = Math.max(4, Math.round(speckShare * widthPx * heightPx));
  boundsOfRest(reached, widthPx, heightPx, least, new Int32Array(widthPx * heightPx), bounds);
  const [left = 0, top = 0, right = -1, bottom = -1] = bounds;
  if (right < left) return { unknown: 'empty' };
  const cut = {
    left: left === 0,
    top: top === 0,
    right: right === widthPx - 1,
    bottom: bottom === heightPx - 1,
  };
  // From one edge to the other it is a table or a horizon, not a subject.
  if (cut.left && cut.right) return { unknown: 'not-plain' };
  const [stepX, stepY] = [plane.widthPx / widthPx, plane.heightPx / heightPx].map(Math.floor);
  const x = (px: number): number =>
    Math.min(1, (plane.leftPx + px * (stepX ?? 1) * plane.scalePx) / plane.fullWidthPx);
  const y = (px: number): number =>
    Math.min(1, (plane.topPx + px * (stepY ?? 1) * plane.scalePx) / plane.fullHeightPx);
  const box: ShareBox = {
    left: cut.left ? 0 : x(left),
    top: cut.top ? 0 : y(top),
    right: cut.right ? 1 : x(right + 1),
    bottom: cut.bottom ? 1 : y(bottom + 1),
  };
  return {
    box,
    fillPercent: 100 * Math.max(box.right - box.left, box.bottom - box.top),
    marginsPercent: {
      left: 100 * box.left,
      top: 100 * box.top,
      right: 100 * (1 - box.right),
      bottom: 100 * (1 - box.bottom),
    },
  };
}
