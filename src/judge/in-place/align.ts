import { alignSums, sumAlignStep } from '../kernels/align-sums.ts';
import { nthSmallest } from '../kernels/nth-smallest.ts';
import { warpPlaces } from '../kernels/warp-plane.ts';
import type { Level } from './level.ts';
import { after, applyTo, inverseOf, type Point, type Similarity } from './similarity.ts';
import { solvePositive } from './solve.ts';

/** A reference and a frame at one size, made even, with the places of the reference that have structure. */
export interface LevelPair {
  readonly reference: Level;
  readonly frame: Level;
  /** Indices into the reference, none at its border. */
  readonly places: Int32Array;
}

export interface Alignment {
  /** From places of the reference's level to those of the frame's. */
  readonly similarity: Similarity;
  /** Correlation at the places that lie in the frame, -1 … 1; 0 where too few do. */
  readonly likeness: number;
  /** Share of the places that lie in the frame. */
  readonly overlap: number;
  /** Standard deviations: of turn (radians, and of size the same), and of the shift of the places' middle, px. */
  readonly errorTurn: number;
  readonly errorPx: number;
}

const stepsMax = 20;
/** Steps below this, px, change nothing any more. */
const stepPxMin = 0.003;
/** After so many steps it shows whether a start leads anywhere. */
const stepsTried = 3;
/** Residuals further out than this many deviations do not count (95 % efficient for normal ones). */
const tukeyEnd = 4.685;
/** Deviation of a normal variable over its median size. */
const madToSigma = 1.4826;
/** Smoothing makes neighbours agree, so that four values are about one. */
const valuesPerSample = 4;
/** With fewer places in the frame nothing is told. */
const placesMin = 30;

/**
 * Gauss-Newton steps for a similarity from a start that is right within a few pixels of the level (inverse compositional,
 * see `sumAlignStep`; robust weights from the median of residuals). Null where the start lies outside or the places leave a
 * direction open; or where after some steps the likeness is below `likenessMin`.
 */
export function align(
  { reference, frame, places }: LevelPair,
  start: Similarity,
  likenessMin: number,
): Alignment | null {
  const warped = new Float32Array(places.length);
  const sums = new Float64Array(alignSums);
  const centre = { x: (reference.widthPx - 1) / 2, y: (reference.heightPx - 1) / 2 };
  const unit = Math.max(reference.widthPx, reference.heightPx) / 2;
  let similarity = start;
  let likeness = warpTo(reference, frame, places, similarity, warped);
  for (let step = 0; step < stepsMax; step++) {
    const spread = spreadOf(reference.data, places, warped);
    if (spread === null) return null;
    const endAt = Math.max(1e-4, tukeyEnd * madToSigma * spread);
    sumAlignStep(reference.data, reference.widthPx, places, warped, centre.x, centre.y, unit, endAt, sums);
    const change = solveStep(sums);
    if (change === null) return null;
    const next = after(similarity, inverseOf(aboutCentre(change, centre, unit)));
    if (!isSane(next, start)) return null;
    const moved = Math.abs(change[0]) + Math.abs(change[1]) + Math.hypot(change[2], change[3]);
    similarity = next;
    likeness = warpTo(reference, frame, places, similarity, warped);
    if (moved < stepPxMin) break;
    if (step + 1 === stepsTried && likeness.likeness < likenessMin) return null;
  }
  return { similarity, ...likeness, ...errorsOf(sums, unit) };
}

type Change = readonly [size: number, turn: number, x: number, y: number];

function solveStep(sums: Float64Array): Change | null {
  // Where the entries of the upper half lie, row by row.
  const rows = [
    [0, 1, 2, 3],
    [1, 4, 5, 6],
    [2, 5, 7, 8],
    [3, 6, 8, 9],
  ].map((places) => Float64Array.from(places, (place) => sums[place] ?? 0));
  const found = solvePositive(rows, sums.slice(10, 14));
  if (found === null) return null;
  const [size = 0, turn = 0, x = 0, y = 0] = found;
  return [size, turn, x, y];
}

/** The small similarity that a step's unknowns mean. */
function aboutCentre([size, turn, x, y]: Change, centre: Point, unit: number): Similarity {
  const [re, im] = [1 + size / unit, turn / unit];
  const moved = applyTo({ re, im, tx: 0, ty: 0 }, centre);
  return { re, im, tx: x + centre.x - moved.x, ty: y + centre.y - moved.y };
}

/** Steps that run away end nowhere. */
function isSane(next: Similarity, start: Similarity): boolean {
  const ratio = Math.hypot(next.re, next.im) / Math.hypot(start.re, start.im);
  return ratio > 0.6 && ratio < 1.6 && Number.isFinite(next.tx) && Number.isFinite(next.ty);
}

function warpTo(
  reference: Level,
  frame: Level,
  places: Int32Array,
  { re, im, tx, ty }: Similarity,
  warped: Float32Array,
): { readonly likeness: number; readonly overlap: number } {
  warpPlaces(frame.data, frame.widthPx, frame.heightPx, places, reference.widthPx, re, im, tx, ty, warped);
  return correlationOf(reference.data, places, warped);
}

/** Correlation of a level with warped values at its places, and how many of them lie in the frame; 0 where too few do. */
export function correlationOf(
  reference: Float32Array,
  places: Int32Array,
  warped: Float32Array,
): { likeness: number; overlap: number } {
  let [count, a, b, aa, bb, ab] = [0, 0, 0, 0, 0, 0];
  for (let k = 0; k < places.length; k++) {
    const other = warped[k] ?? Number.NaN;
    if (Number.isNaN(other)) continue;
    const own = reference[places[k] ?? 0] ?? 0;
    count++;
    a += own;
    b += other;
    aa += own * own;
    bb += other * other;
    ab += own * other;
  }
  if (count < placesMin) return { likeness: 0, overlap: 0 };
  const below = Math.sqrt(Math.max(0, aa - (a * a) / count) * Math.max(0, bb - (b * b) / count));
  return { likeness: below > 0 ? (ab - (a * b) / count) / below : 0, overlap: count / places.length };
}

const spreadSamples = 4000;

/** Median size of the residuals, of some thousand of them; null where too few places lie in the frame. */
function spreadOf(reference: Float32Array, places: Int32Array, warped: Float32Array): number | null {
  const step = Math.max(1, Math.floor(places.length / spreadSamples));
  const sizes = new Float32Array(Math.ceil(places.length / step));
  let count = 0;
  for (let k = 0; k < places.length; k += step) {
    const e = Math.abs((warped[k] ?? Number.NaN) - (reference[places[k] ?? 0] ?? 0));
    if (!Number.isNaN(e)) sizes[count++] = e;
  }
  if (count < placesMin) return null;
  return nthSmallest(sizes, count, count >> 1);
}

/** Of the last step's equations: the shift's error along its worse direction, the turn's by its own entry. */
function errorsOf(sums: Float64Array, unit: number): { errorTurn: number; errorPx: number } {
  const [turns = 0, xx = 0, xy = 0, yy = 0] = [sums[4], sums[7], sums[8], sums[9]];
  const variance = (valuesPerSample * (sums[15] ?? 0)) / Math.max(1, sums[14] ?? 0);
  const least = (xx + yy) / 2 - Math.hypot((xx - yy) / 2, xy);
  return {
    errorPx: Math.sqrt(variance / Math.max(1e-12, least)),
    errorTurn: Math.sqrt(variance / Math.max(1e-12, turns)) / unit,
  };
}
