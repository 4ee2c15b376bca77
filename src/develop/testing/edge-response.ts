import { erf } from '../local/acutance-reference.ts';

/** Width and height of the planes below. */
export const edgeEdgePx = 128;

/** Columns by which the edge moves from row to row: about 5 degrees, as ISO 12233 has it. */
const slant = Math.tan((5 * Math.PI) / 180);

/** Light of a slanted edge from `dark` to `light`, a step blurred by a Gaussian: its profile is an error function (by hand). */
export function slantedEdge(
  sigmaPx: number,
  dark: number,
  light: number,
): (row: number, column: number) => number {
  return (row, column) => {
    const distance = (column + 0.5 - edgeAt(row)) * Math.cos(Math.atan(slant));
    return dark + ((light - dark) * (1 + erf(distance / (sigmaPx * Math.SQRT2)))) / 2;
  };
}

function edgeAt(row: number): number {
  return edgeEdgePx / 2 + (row + 0.5 - edgeEdgePx / 2) * slant;
}

/**
 * Cycles a pixel at which the response of an edge falls to a half, after the steps of ISO 12233 (edge spread in quarters of a
 * pixel, its derivative, its Fourier transform; the derivative's own fall is taken out). The edge lies where
 * {@link slantedEdge} has it.
 */
export function mtf50(at: (row: number, column: number) => number): number {
  const reach = 24;
  const sums = new Float64Array(8 * reach);
  const counts = new Float64Array(8 * reach);
  for (let row = 8; row < edgeEdgePx - 8; row++) {
    for (let column = 0; column < edgeEdgePx; column++) {
      const distance = (column + 0.5 - edgeAt(row)) * Math.cos(Math.atan(slant));
      const bin = Math.floor((distance + reach) * 4);
      if (bin < 0 || bin >= sums.length) continue;
      sums[bin] = (sums[bin] ?? 0) + at(row, column);
      counts[bin] = (counts[bin] ?? 0) + 1;
    }
  }
  const spread = [...sums].map((sum, bin) => sum / (counts[bin] ?? 1));
  const line = spread.slice(2).map((value, bin) => value - (spread[bin] ?? 0));
  const responseAt = (frequency: number): number => {
    let re = 0;
    let im = 0;
    line.forEach((value, bin) => {
      re += value * Math.cos((2 * Math.PI * frequency * bin) / 4);
      im += value * Math.sin((2 * Math.PI * frequency * bin) / 4);
    });
    const phase = 2 * Math.PI * frequency * 0.25;
    const fall = frequency === 0 ? 1 : (Math.sin(phase) / phase) * (Math.sin(phase / 2) / (phase / 2));
    return Math.hypot(re, im) / fall;
  };
  const whole = responseAt(0);
  let frequency = 0;
  while (frequency < 1 && responseAt(frequency) > whole / 2) frequency += 0.001;
  return frequency;
}
