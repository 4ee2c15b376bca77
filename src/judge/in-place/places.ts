import type { ShareBox } from '../../facts/index.ts';
import type { Level, Structure } from './level.ts';

/** Structure counts from this many deviations of noise on, and from this many stops. */
const aboveNoise = 3;
const stopsMin = 0.02;
/** At most this share of the places that could be taken: those with the steepest slopes. */
const steepShare = 0.5;
const bins = 4096;
/** Slopes squared of an evened picture hardly reach it. */
const slopeMax = 4;

/**
 * Places of an evened picture that have structure, as indices, none within two pixels of the border: the steepest ones, at
 * most `countMax`. `box`: shares of the level; null for all of it.
 */
export function placesWithStructure(
  { data, widthPx, heightPx }: Level,
  { strength, noise }: Structure,
  box: ShareBox | null,
  countMax: number,
): Int32Array {
  const least = Math.max(stopsMin, aboveNoise * noise);
  const left = Math.max(2, Math.floor((box?.left ?? 0) * widthPx));
  const top = Math.max(2, Math.floor((box?.top ?? 0) * heightPx));
  const right = Math.min(widthPx - 2, Math.ceil((box?.right ?? 1) * widthPx));
  const bottom = Math.min(heightPx - 2, Math.ceil((box?.bottom ?? 1) * heightPx));
  const steepness = (at: number): number => {
    const gx = (data[at + 1] ?? 0) - (data[at - 1] ?? 0);
    const gy = (data[at + widthPx] ?? 0) - (data[at - widthPx] ?? 0);
    return Math.min(bins - 1, Math.floor(((gx * gx + gy * gy) * bins) / slopeMax));
  };
  const counts = new Int32Array(bins);
  let count = 0;
  for (let row = top; row < bottom; row++) {
    for (let at = row * widthPx + left; at < row * widthPx + right; at++) {
      if (!((strength[at] ?? 0) >= least)) continue;
      const bin = steepness(at);
      counts[bin] = (counts[bin] ?? 0) + 1;
      count++;
    }
  }
  const from = lowestBin(counts, Math.min(countMax, steepShare * count));
  const places = new Int32Array(Math.min(count, countMax));
  let taken = 0;
  for (let row = top; row < bottom; row++) {
    for (let at = row * widthPx + left; at < row * widthPx + right; at++) {
      if (taken >= places.length) break;
      if ((strength[at] ?? 0) >= least && steepness(at) >= from) places[taken++] = at;
    }
  }
  return places.subarray(0, taken);
}

/** The bin from which on at most so many are. */
function lowestBin(counts: Int32Array, wanted: number): number {
  let above = 0;
  for (let bin = bins - 1; bin >= 0; bin--) {
    above += counts[bin] ?? 0;
    if (above > wanted) return bin + 1;
  }
  return 0;
}

/**
 * How far structure goes both ways: the smaller against the larger eigenvalue of the slopes' sums, 0 (stripes) … 1.
 */
export function twoWays({ data, widthPx }: Level, places: Int32Array): number {
  let [xx, xy, yy] = [0, 0, 0];
  for (const at of places) {
    const gx = (data[at + 1] ?? 0) - (data[at - 1] ?? 0);
    const gy = (data[at + widthPx] ?? 0) - (data[at - widthPx] ?? 0);
    xx += gx * gx;
    xy += gx * gy;
    yy += gy * gy;
  }
  const apart = Math.hypot((xx - yy) / 2, xy);
  const middle = (xx + yy) / 2;
  return middle > 0 ? (middle - apart) / (middle + apart) : 0;
}
