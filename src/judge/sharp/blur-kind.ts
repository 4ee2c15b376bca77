import type { BlurKind } from '../../facts/index.ts';
import { combineEdges } from './combine-edges.ts';
import { deniedBelow, deniedShare, risePerMovedPx } from './moved-edge.ts';
import { movementFan } from './movement-fan.ts';
import type { EdgeReading } from './read-edge.ts';

/** Directions are told apart in so many sectors of the half circle. */
const sectors = 12;
/** With fewer filled, or all of them on one side, nothing is known of the others. */
const sectorsMin = 5;
/** Square of misfit against what the errors allow: beyond it directions are not what makes widths differ. */
const misfitMax = 4;
/** A movement has to make this much of the mean square, and this many times its error. */
const shareMin = 0.5;
const significanceMin = 3.5;

/** What a rise differs by between sectors anyway. */
const ownShare = 0.15;
/** A sector of so many edges has half as much weight again as one of many. */
const fewEdges = 4;
/** What lies above the wave stands out of focus, more likely than what lies below it: it gives way, in so many rounds. */
const rounds = 4;

const unknown: BlurKind = { kind: 'unknown', directionDegrees: null, lengthPx: null };

/**
 * Movement or focus: a steady movement of length L along φ makes edges whose normal lies at θ rise over 0.8 L |cos(θ - φ)|
 * beside what the lens does, so squares of the 10-90 % rise over direction are fitted with a + b cos 2θ + c sin 2θ, and
 * the wave's height is (0.8 L)² / 2. The standard deviation of the Gaussian that fits best does not serve: to a ramp it fits
 * a seventh wider than the box's own. In each sector the sharpest edges speak, so that what stands out of focus anyway does
 * not count.
 */
export function blurKind(edges: readonly EdgeReading[]): BlurKind {
  return readBlur(edges).blur;
}

/** Kind of blur, and what edges along a movement rise over by themselves: square of their 10-90 % rise, px²; 0 for no movement. */
export interface BlurReading {
  readonly blur: BlurKind;
  readonly stillSquare: number;
}

/** By the wave, or where it does not tell by the fan: of a long movement too few directions are left to be read for a wave. */
export function readBlur(edges: readonly EdgeReading[]): BlurReading {
  const wave = readWave(edges);
  const fan = wave.blur.kind === 'unknown' ? movementFan(edges) : null;
  if (fan === null) return wave;
  const { directionDegrees, lengthPx, stillPx } = fan;
  return { blur: { kind: 'movement', directionDegrees, lengthPx }, stillSquare: stillPx ** 2 };
}

/** By the wave alone. */
export function readWave(edges: readonly EdgeReading[]): BlurReading {
  const fit = fitOf(edges);
  const blur = blurOf(edges, fit);
  if (blur.kind !== 'movement' || fit === null) return { blur, stillSquare: 0 };
  // A wave of edges that differ may end below nothing; no lens is sharper than the sharpest edges there are.
  const sharpest = Math.min(...fit.points.map(({ square }) => square));
  return { blur, stillSquare: Math.max(sharpest, fit.mean - Math.hypot(fit.cosine, fit.sine)) };
}

function fitOf(edges: readonly EdgeReading[]): (Wave & { readonly points: readonly Point[] }) | null {
  const points = bySector(edges);
  if (points.length < sectorsMin) return null;
  const fit = fitFromBelow(points);
  return fit === null ? null : { ...fit, points };
}

function blurOf(edges: readonly EdgeReading[], fit: ReturnType<typeof fitOf>): BlurKind {
  if (fit === null) return unknown;
  const { mean, cosine, sine, error, misfit, points } = fit;
  const wave = Math.hypot(cosine, sine);
  if (wave < shareMin * mean || wave < significanceMin * error) {
    // No wave was proved. That there is none is only known where one that counts would have been seen.
    const isRuledOut = wave + error < shareMin * mean && isAllAround(points);
    return error * significanceMin < shareMin * mean || isRuledOut
      ? { kind: 'focus', directionDegrees: null, lengthPx: null }
      : unknown;
  }
  if (misfit > misfitMax || isDenied(edges, { mean, cosine, sine })) return unknown;
  const degrees = (Math.atan2(sine, cosine) / 2) * (180 / Math.PI);
  return {
    kind: 'movement',
    directionDegrees: (degrees + 180) % 180,
    lengthPx: Math.sqrt(2 * wave) / risePerMovedPx,
  };
}

interface Point {
  readonly angle: number;
  /** Of the 10-90 % rise, px². */
  readonly square: number;
  readonly error: number;
}

function bySector(edges: readonly EdgeReading[]): Point[] {
  const points: Point[] = [];
  for (let sector = 0; sector < sectors; sector++) {
    const inside = edges.filter(({ angle }) => Math.floor((angle / Math.PI) * sectors) % sectors === sector);
    const width = combineEdges(inside);
    if (width === null) continue;
    const angle = ((sector + 0.5) / sectors) * Math.PI;
    // Photographs are not made of ideal edges: between sectors a seventh of a rise is nothing, and few edges may all be soft.
    const own = 2 * width.widthPx * Math.max(ownShare * width.widthPx, width.errorPx);
    const error = own * Math.sqrt(1 + fewEdges / inside.length);
    points.push({ angle, square: width.widthPx ** 2, error });
  }
  return points;
}

interface Wave {
  readonly mean: number;
  readonly cosine: number;
  readonly sine: number;
  /** Standard deviation of the wave's height, its misfit counted in. */
  readonly error: number;
  /** Mean square of what the wave leaves over, in errors; 1 is what they allow. */
  readonly misfit: number;
}

/** Nothing that lies across a movement stays sharp: where several edges do, it is their surroundings that are soft. */
function isDenied(
  edges: readonly EdgeReading[],
  { mean, cosine, sine }: Omit<Wave, 'error' | 'misfit'>,
): boolean {
  const across = edges.filter(({ angle }) => waveAt(angle, mean, cosine, sine) > mean);
  const sharp = across.filter(
    ({ angle, widthPx }) => widthPx ** 2 < deniedBelow * waveAt(angle, mean, cosine, sine),
  );
  return across.length < 3 || sharp.length > Math.max(1, deniedShare * across.length);
}

/** The wave through the sharper of the points. */
function fitFromBelow(points: readonly Point[]): Wave | null {
  let fit = fitWave(points);
  for (let round = 1; round < rounds && fit !== null; round++) {
    const { mean, cosine, sine } = fit;
    const eased = points.map((point) => {
      const above = (point.square - waveAt(point.angle, mean, cosine, sine)) / point.error;
      return above > 1 ? { ...point, error: point.error * above } : point;
    });
    fit = fitWave(eased);
  }
  return fit;
}

function waveAt(angle: number, mean: number, cosine: number, sine: number): number {
  return mean + cosine * Math.cos(2 * angle) + sine * Math.sin(2 * angle);
}

/** Weighted least squares by normal equations of three unknowns; null where the directions do not decide them. */
function fitWave(points: readonly Point[]): Wave | null {
  const m = [0, 0, 0, 0, 0, 0];
  const b = [0, 0, 0];
  for (const { angle, square, error } of points) {
    const row = [1, Math.cos(2 * angle), Math.sin(2 * angle)];
    const weight = 1 / (error * error);
    let at = 0;
    for (let i = 0; i < 3; i++) {
      b[i] = (b[i] ?? 0) + weight * (row[i] ?? 0) * square;
      for (let j = i; j < 3; j++) {
        m[at] = (m[at] ?? 0) + weight * (row[i] ?? 0) * (row[j] ?? 0);
        at++;
      }
    }
  }
  const inverse = invertSymmetric(m);
  if (inverse === null) return null;
  const [xx, xy, xz, yy, yz, zz] = inverse;
  const [p = 0, q = 0, r = 0] = b;
  const mean = xx * p + xy * q + xz * r;
  const cosine = xy * p + yy * q + yz * r;
  const sine = xz * p + yz * q + zz * r;
  let squares = 0;
  for (const { angle, square, error } of points) {
    squares += ((square - waveAt(angle, mean, cosine, sine)) / error) ** 2;
  }
  const misfit = squares / Math.max(1, points.length - 3);
  return { mean, cosine, sine, misfit, error: Math.sqrt(Math.max(yy, zz) * Math.max(1, misfit)) };
}

/** Upper triangle xx, xy, xz, yy, yz, zz, in and out. */
function invertSymmetric(m: readonly number[]): [number, number, number, number, number, number] | null {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = m;
  const xx = d * f - e * e;
  const xy = c * e - b * f;
  const xz = b * e - c * d;
  const determinant = a * xx + b * xy + c * xz;
  if (!(Math.abs(determinant) > 1e-9 * Math.abs(a * d * f))) return null;
  const by = 1 / determinant;
  return [xx * by, xy * by, xz * by, (a * f - c * c) * by, (b * c - a * e) * by, (a * d - b * b) * by];
}

/** Whether no gap between neighbouring directions is wider than 60 degrees. */
function isAllAround(points: readonly Point[]): boolean {
  const angles = points.map(({ angle }) => angle);
  return angles.every((angle, index) => {
    const next = angles[index + 1] ?? (angles[0] ?? 0) + Math.PI;
    return next - angle <= Math.PI / 3 + 1e-9;
  });
}
