import type { Mosaic } from '../facts/index.ts';

/**
 * Noise of one filter position, in raw values above black: variance = `readVariance` + `shotPerValue` x value. The first
 * is the sensor's own, the second the light's (one over the electrons that make one raw value).
 */
export interface ChannelNoise {
  readonly readVariance: number;
  readonly shotPerValue: number;
}

/** For each filter position, in the order of `Mosaic.filters`. */
export type NoiseProfile = readonly [ChannelNoise, ChannelNoise, ChannelNoise, ChannelNoise];

/** Edge of a block, in samples of one filter position. */
const blockEdge = 16;

/** Blocks looked at for each position: enough for a figure within a few per cent, a small part of a large frame. */
const blocksMax = 20_000;

/** Bins of level, evenly spaced on the root of the range, so that dark ones are fine. */
const bins = 24;

/** Fewest blocks of a bin that count. */
const binBlocksMin = 8;

/**
 * Noise told from one frame alone, after the model of A. Foi, M. Trimeche, V. Katkovnik, K. Egiazarian: Practical
 * Poissonian-Gaussian noise modeling and fitting for single-image raw-data, IEEE Transactions on Image Processing 17 (10),
 * 2008, DOI 10.1109/TIP.2008.2001399 (from memory); simpler than theirs:
 *
 * 1. in blocks of 16 x 16 samples of one filter, variance is told from second differences along rows, which slopes leave alone;
 * 2. in bins of level, the block that is calmer than three quarters stands for all, since texture only adds; what a
 *    quartile of such estimates lies low by is known (Wilson and Hilferty 1931) and given back;
 * 3. a line is fitted through the bins, each weighted by its blocks over its variance squared.
 *
 * Saturated blocks are left out, and those where black cuts the noise off. Good to a few per cent on smooth frames; a tenth
 * high where half of each level's blocks are texture. Null where there is not enough to tell, and for samples that are no 2x2 mosaic.
 */
export function estimateNoise(mosaic: Mosaic): NoiseProfile | null {
  if (mosaic.layout !== undefined) return null;
  const [first, second, third, fourth] = [0, 1, 2, 3].map((position) => channelNoise(mosaic, position));
  return first && second && third && fourth ? [first, second, third, fourth] : null;
}

function channelNoise(mosaic: Mosaic, position: number): ChannelNoise | null {
  const black = mosaic.blackLevels[position] ?? 0;
  const range = mosaic.whiteLevel - black;
  const variances: number[][] = Array.from({ length: bins }, () => []);
  const levels = new Float64Array(bins);
  for (const [top, left] of blockCorners(mosaic, position)) {
    const block = readBlock(mosaic, top, left);
    if (block === null) continue;
    const level = Math.max(0, block.mean - black);
    const bin = Math.min(bins - 1, Math.floor(Math.sqrt(level / range) * bins));
    variances[bin]?.push(block.variance);
    levels[bin] = (levels[bin] ?? 0) + level;
  }
  const points = variances.flatMap((found, bin) => {
    if (found.length < binBlocksMin) return [];
    return [{ level: (levels[bin] ?? 0) / found.length, variance: calmest(found), blocks: found.length }];
  });
  return fitLine(points);
}

/** Corners of blocks, spread evenly over the frame. */
function* blockCorners(
  { widthPx, heightPx }: Mosaic,
  position: number,
): Generator<readonly [row: number, column: number]> {
  const edge = 2 * blockEdge;
  const blocks = Math.floor(widthPx / edge) * Math.floor(heightPx / edge);
  const step = edge * Math.max(1, Math.ceil(Math.sqrt(blocks / blocksMax)));
  for (let row = position >> 1; row + edge <= heightPx; row += step) {
    for (let column = position & 1; column + edge <= widthPx; column += step) yield [row, column];
  }
}

/** Mean and variance of noise of a block, or null where the range's ends were touched. */
function readBlock(
  { values, widthPx, whiteLevel }: Mosaic,
  top: number,
  left: number,
): { readonly mean: number; readonly variance: number } | null {
  let sum = 0;
  let squares = 0;
  for (let y = 0; y < blockEdge; y++) {
    const line = (top + 2 * y) * widthPx + left;
    for (let x = 0; x < blockEdge; x++) {
      const value = values[line + 2 * x] ?? 0;
      if (value === 0 || value >= 0.98 * whiteLevel) return null;
      sum += value;
      if (x === 0 || x === blockEdge - 1) continue;
      const second = 2 * value - (values[line + 2 * x - 2] ?? 0) - (values[line + 2 * x + 2] ?? 0);
      squares += second * second;
    }
  }
  // (-1, 2, -1): six times the variance of one sample.
  return { mean: sum / blockEdge ** 2, variance: squares / (6 * differences) };
}

const differences = blockEdge * (blockEdge - 2);

/**
 * Lower quartile of variances, made what their mean would be without texture. Neighbouring second differences are
 * correlated by -2/3 and 1/6, which leaves fewer independent ones: n / (1 + 2 (4/9 + 1/36)).
 */
function calmest(variances: number[]): number {
  const sorted = variances.sort((a, b) => a - b);
  const quartile = sorted[Math.floor(sorted.length / 4)] ?? 0;
  const freedom = differences / (1 + 2 * (4 / 9 + 1 / 36));
  const shape = 2 / (9 * freedom);
  return quartile / (1 - shape - 0.6745 * Math.sqrt(shape)) ** 3;
}

interface Point {
  readonly level: number;
  readonly variance: number;
  readonly blocks: number;
}

/** Weighted least squares; neither number below 0. One level alone is all read noise. */
function fitLine(points: readonly Point[]): ChannelNoise | null {
  if (points.length === 0) return null;
  let w = 0;
  let x = 0;
  let y = 0;
  let xx = 0;
  let xy = 0;
  for (const { level, variance, blocks } of points) {
    const weight = blocks / (variance * variance + 1e-3);
    w += weight;
    x += weight * level;
    y += weight * variance;
    xx += weight * level * level;
    xy += weight * level * variance;
  }
  const spread = w * xx - x * x;
  const slope = spread > 1e-9 * w * xx ? Math.max(0, (w * xy - x * y) / spread) : 0;
  const foot = (y - slope * x) / w;
  return foot >= 0 ? { readVariance: foot, shotPerValue: slope } : { readVariance: 0, shotPerValue: xy / xx };
}
