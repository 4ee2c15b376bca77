import type { EdgeWidth } from '../../facts/index.ts';
import type { EdgeReading } from './read-edge.ts';

/** Of the edges, sorted by width, those that speak for all: soft shadows and outlines out of focus lie above them. */
const sharpestShare = 0.25;
/** Wider ones that differ by no more than so many errors are the same: alone, the narrowest are so by chance. */
const sameErrors = 2;
/** An edge much sharper than its neighbours is more often a mistake than a find: so many at the sharp end do not speak. */
const leftOutShare = 0.15;
const leaveOutFrom = 5;
/** No edge is known better than this, share of its width: photographs are not made of ideal edges. */
const errorShareMin = 0.03;
/** Of the Gaussian's 10-90 % rise. */
const risePerSigma = 2.5631;

/** The width of the sharpest edges among many; null for none. */
export function combineEdges(edges: readonly EdgeReading[]): EdgeWidth | null {
  if (edges.length === 0) return null;
  const sorted = [...edges].sort((a, b) => a.widthPx - b.widthPx);
  const chosen = sharpestAlike(sorted);
  const weights = chosen.map(weightOf);
  const mean = (of: (edge: EdgeReading) => number): number => weightedMean(chosen.map(of), weights);
  const widthPx = mean((edge) => edge.widthPx);
  const withMtf = chosen.flatMap(({ mtf50 }) => (mtf50 === null ? [] : [mtf50]));
  const errorPx = 1 / Math.sqrt(weights.reduce((sum, weight) => sum + weight, 0));
  return {
    widthPx,
    errorPx,
    sigmaPx: mean((edge) => edge.sigmaPx),
    mtf50: withMtf.length < chosen.length ? null : mean((edge) => edge.mtf50 ?? 0),
    snr: sorted.map(({ snr }) => snr).sort((a, b) => a - b)[sorted.length >> 1] ?? 0,
    edges: edges.length,
    confidence: (1 - 0.5 ** edges.length) / (1 + (errorPx / (0.15 * widthPx)) ** 2),
  };
}

/** Of edges sorted by width the sharpest, and those behind them that are not clearly wider. */
function sharpestAlike(sorted: readonly EdgeReading[]): readonly EdgeReading[] {
  const first = sorted.length < leaveOutFrom ? 0 : Math.ceil(sorted.length * leftOutShare);
  let end = first + Math.max(1, Math.ceil(sorted.length * sharpestShare));
  for (let next = sorted[end]; next !== undefined; next = sorted[end]) {
    const known = sorted.slice(first, end);
    const weights = known.map(weightOf);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const mean = weightedMean(
      known.map(({ widthPx }) => widthPx),
      weights,
    );
    if (next.widthPx - mean > sameErrors * Math.sqrt(1 / weightOf(next) + 1 / total)) break;
    end++;
  }
  return sorted.slice(first, end);
}

function weightOf({ widthPx, sigmaErrorPx }: EdgeReading): number {
  return 1 / Math.max(sigmaErrorPx * risePerSigma, errorShareMin * widthPx) ** 2;
}

function weightedMean(values: readonly number[], weights: readonly number[]): number {
  let sum = 0;
  let total = 0;
  values.forEach((value, index) => {
    const weight = weights[index] ?? 0;
    sum += value * weight;
    total += weight;
  });
  return sum / total;
}
