import type { Mosaic } from '../../facts/index.ts';
import { neighbourNoise } from '../kernels/neighbour-noise.ts';

const differences = 4096;
/** A band with fewer pairs says nothing. */
const pairsMin = 400;
/** Rows looked at. */
const rowsWanted = 400;
/** A quarter of the differences of two equal values lies within 0.3186 of their deviation, which is √2 times one's own. */
const quarterOfNormal = 0.3186 * Math.SQRT2;

/**
 * Standard deviation of one sample in the dark, in raw steps: out of the smaller quarter of differences between
 * neighbours of a colour, which texture hardly touches, in the darkest octave that the picture has. Light below it is not
 * told from noise (a signal-to-noise ratio of 1, as dynamic range is defined in ISO 15739). 0 where nothing is dark.
 */
export function darkNoise({ values, widthPx, heightPx, blackLevels }: Mosaic): number {
  const counts = new Uint32Array(16 * differences);
  const step = Math.max(1, Math.floor(heightPx / rowsWanted));
  neighbourNoise(values, widthPx, heightPx, Float64Array.from(blackLevels), step, differences, counts);
  for (let band = 0; band < 7; band++) {
    const deviation = deviationOf(counts.subarray(band * differences, (band + 1) * differences));
    if (deviation !== null) return deviation;
  }
  return 0;
}

function deviationOf(counts: Uint32Array): number | null {
  const pairs = counts.reduce((sum, count) => sum + count, 0);
  if (pairs < pairsMin) return null;
  // A difference of d stands for d - 1/2 … d + 1/2, and 0 for half of that.
  let below = 0;
  for (let difference = 0; difference < counts.length; difference++) {
    const count = counts[difference] ?? 0;
    if (below + count >= pairs / 4) {
      const inside = (pairs / 4 - below) / Math.max(1, count);
      const from = difference === 0 ? 0 : difference - 0.5;
      const width = difference === 0 ? 0.5 : 1;
      return (from + width * inside) / quarterOfNormal;
    }
    below += count;
  }
  return null;
}
