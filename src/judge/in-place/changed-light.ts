import type { ShareBox } from '../../facts/index.ts';
import { agreeAround } from '../kernels/agree-around.ts';
import { offSurface } from '../kernels/fit-surface.ts';
import { everyPlace } from '../kernels/mark-within.ts';
import { warpPlaces } from '../kernels/warp-plane.ts';
import type { Level } from './level.ts';
import { atLevel, type RawPair } from './level-pair.ts';
import type { Similarity } from './similarity.ts';
import { surfaceThrough } from './surface.ts';

/** The size it is looked at, px of the longer edge: what is smooth needs no more, and noise is gone there. */
const edgePxMax = 130;
/** Less light than this is a reflection or a strobe's own spread, stops; or deviations of what is left everywhere. */
const changedStops = 0.15;
const changedSpreads = 6;
/** How far around a place all have to agree, px of that size: outlines that lie a little beside each other are thinner. */
const radiusPx = 1;
/** Smaller parts are reflections, share of the picture, counted without their rim. */
const shareMin = 2e-3;
/** Both darker than so many stops above the darkest are shadow, where the floor decides. */
const darkStops = 1.5;
/** So near to its brightest a picture may have lost light, stops. */
const clippedStops = 0.15;
/** Off the surface, stops, that still counts to it, fit by fit; then deviations of the rest. */
const firstOff = 0.5;
const fitSpreads = 3;
const fits = 4;
const madToSigma = 1.4826;
/** With less in common nothing is told. */
const commonMin = 0.4;

/**
 * The largest part of the reference where light differs, though it was laid on it: something smooth, without an edge that
 * could be found again, is gone, moved or new. Light that drifts does so as a smooth surface over all of the picture, which
 * is taken off. Shares of the reference's plane; null where there is none.
 *
 * `pairs`: light in stops, the finest first; `whole`: from the reference's plane to the frame's.
 */
export function changedLight(pairs: readonly RawPair[], whole: Similarity): ShareBox | null {
  const pair = pairs.find(({ own }) => Math.max(own.widthPx, own.heightPx) <= edgePxMax);
  if (pair === undefined) return null;
  const { own } = pair;
  const laid = layOn(pair, whole);
  const off = {
    data: laid.map((value, at) => value - (own.data[at] ?? 0)),
    widthPx: own.widthPx,
    heightPx: own.heightPx,
  };
  const rest = withoutDrift(off);
  if (rest === null) return null;
  const known = rest.data.filter((value) => !Number.isNaN(value));
  const threshold = Math.max(changedStops, changedSpreads * madToSigma * middleSize(known));
  leaveOutLimits(rest.data, own.data, laid);
  const signs = new Uint8Array(rest.data.length);
  agreeAround(rest.data, own.widthPx, own.heightPx, threshold, radiusPx, signs);
  return largestPart(signs, own);
}

/** The frame's light where the reference's places lie in it; NaN outside. */
function layOn({ own, other, ownStep, otherStep }: RawPair, whole: Similarity): Float32Array {
  const places = everyPlace(own.widthPx * own.heightPx);
  const out = new Float32Array(places.length);
  const { re, im, tx, ty } = atLevel(whole, ownStep, otherStep);
  warpPlaces(other.data, other.widthPx, other.heightPx, places, own.widthPx, re, im, tx, ty, out);
  return out;
}

function withoutDrift(off: Level): Level | null {
  const { data, widthPx, heightPx } = off;
  const known = data.filter((value) => !Number.isNaN(value)).sort();
  if (known.length < commonMin * data.length) return null;
  const rest = new Float32Array(data.length);
  let surface = Float64Array.of(known[known.length >> 1] ?? 0, 0, 0, 0, 0, 0);
  let tolerance = firstOff;
  for (let fit = 0; fit < fits; fit++) {
    offSurface(data, surface, widthPx, heightPx, rest);
    const near = Uint8Array.from(rest, (value) => (Math.abs(value) <= tolerance ? 1 : 0));
    const next = surfaceThrough(off, near);
    if (next === null) return null;
    surface = Float64Array.from(next);
    offSurface(data, surface, widthPx, heightPx, rest);
    tolerance = Math.max(
      0.05,
      fitSpreads * madToSigma * middleSize(rest.filter((value) => !Number.isNaN(value))),
    );
  }
  return { data: rest, widthPx, heightPx };
}

function middleSize(values: Float32Array): number {
  return values.map(Math.abs).sort()[values.length >> 1] ?? 0;
}

/** Where a difference is what a sensor's end makes of the same light: lost on one side, or in the dark on both. */
function leaveOutLimits(rest: Float32Array, own: Float32Array, laid: Float32Array): void {
  const [ownEnds, laidEnds] = [endsOf(own), endsOf(laid)];
  for (let at = 0; at < rest.length; at++) {
    const [value, there, here] = [rest[at] ?? 0, own[at] ?? 0, laid[at] ?? 0];
    const isDark = there < ownEnds.least + darkStops && here < laidEnds.least + darkStops;
    const isLost =
      (value < 0 && here > laidEnds.most - clippedStops) ||
      (value > 0 && there > ownEnds.most - clippedStops);
    if (isDark || isLost) rest[at] = 0;
  }
}

function endsOf(values: Float32Array): { readonly least: number; readonly most: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { least, most };
}

/** Bounds of the largest connected part, of one sign or both that touch, with its rim; shares of the level. */
function largestPart(signs: Uint8Array, { widthPx, heightPx }: Level): ShareBox | null {
  const seen = new Uint8Array(signs.length);
  let best: { readonly count: number; readonly box: ShareBox } | null = null;
  for (let start = 0; start < signs.length; start++) {
    if (signs[start] === 0 || seen[start] !== 0) continue;
    const places = partFrom(start, signs, seen, widthPx);
    if (places.length < shareMin * signs.length || places.length <= (best?.count ?? 0)) continue;
    best = { count: places.length, box: boundsOf(places, { widthPx, heightPx }) };
  }
  return best?.box ?? null;
}

function partFrom(start: number, signs: Uint8Array, seen: Uint8Array, widthPx: number): number[] {
  const places = [start];
  seen[start] = 1;
  for (let head = 0; head < places.length; head++) {
    const at = places[head] ?? 0;
    // The rim that has no sign keeps the border's columns apart.
    for (const next of [at - 1, at + 1, at - widthPx, at + widthPx]) {
      if ((signs[next] ?? 0) === 0 || seen[next] !== 0) continue;
      seen[next] = 1;
      places.push(next);
    }
  }
  return places;
}

function boundsOf(places: readonly number[], { widthPx, heightPx }: Omit<Level, 'data'>): ShareBox {
  const columns = places.map((at) => at % widthPx);
  const rows = places.map((at) => Math.floor(at / widthPx));
  return {
    left: (Math.min(...columns) - radiusPx) / widthPx,
    top: (Math.min(...rows) - radiusPx) / heightPx,
    right: (Math.max(...columns) + 1 + radiusPx) / widthPx,
    bottom: (Math.max(...rows) + 1 + radiusPx) / heightPx,
  };
}
