import type { BackdropReading } from '../../facts/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import { blockMeans } from '../kernels/block-means.ts';

/** Parts of the picture along each edge. */
const parts = 32;
/** The backdrop is what can be reached from the border over parts that are no darker than its brightest by this, stops. */
const darkerMax = 1;
/** A part is white where its mean is this near to saturation. */
const whiteFrom = 0.985;

/** Reads what lies behind the subject: as far as bright parts reach the border. `saturation`: in steps of the plane. */
export function readBackdrop({ data, widthPx, heightPx }: HalfPlane, saturation: number): BackdropReading {
  const means = new Float64Array(parts * parts);
  blockMeans(data, widthPx, heightPx, parts, parts, means);
  const reached = reachedFromBorder(means);
  // Where the subject begins a part holds some of it.
  const inner = [...reached].filter((part) => neighboursOf(part).every((next) => reached.has(next)));
  const inside = inner.length > 0 ? inner : [...reached];
  const white = inside.filter((part) => (means[part] ?? 0) >= whiteFrom * saturation).length;
  return {
    whitePercent: inside.length === 0 ? 0 : (100 * white) / inside.length,
    unevenEv: unevenness(means, saturation),
  };
}

function isBorder(part: number): boolean {
  const column = part % parts;
  const row = Math.floor(part / parts);
  return column === 0 || row === 0 || column === parts - 1 || row === parts - 1;
}

function reachedFromBorder(means: Float64Array): Set<number> {
  const brightest = means.reduce((most, mean, part) => (isBorder(part) ? Math.max(most, mean) : most), 0);
  const least = brightest / 2 ** darkerMax;
  const isIn = (part: number): boolean => (means[part] ?? 0) >= least && brightest > 0;
  const seen = new Set(Array.from(means.keys()).filter((part) => isBorder(part) && isIn(part)));
  const queue = [...seen];
  for (let part = queue.pop(); part !== undefined; part = queue.pop()) {
    for (const next of neighboursOf(part)) {
      if (seen.has(next) || !isIn(next)) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return seen;
}

function neighboursOf(part: number): number[] {
  const column = part % parts;
  const around = [part - parts, part + parts];
  if (column > 0) around.push(part - 1);
  if (column < parts - 1) around.push(part + 1);
  return around.filter((next) => next >= 0 && next < parts * parts);
}

/** Corners are 3 x 3 parts. */
function unevenness(means: Float64Array, saturation: number): number {
  const corner = (row: number, column: number): number => {
    let sum = 0;
    for (let y = row; y < row + 3; y++) {
      for (let x = column; x < column + 3; x++) sum += means[y * parts + x] ?? 0;
    }
    return Math.min(whiteFrom * saturation, sum / 9);
  };
  const far = parts - 3;
  const corners = [corner(0, 0), corner(0, far), corner(far, 0), corner(far, far)];
  const darkest = Math.min(...corners);
  return darkest <= 0 ? 16 : Math.min(16, Math.log2(Math.max(...corners) / darkest));
}
