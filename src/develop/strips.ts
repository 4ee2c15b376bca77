import type { Mosaic } from '../facts/index.ts';
import type { Size } from '../image/index.ts';
import { binMosaic } from './kernels/bin-mosaic.ts';
import type { BinPlan } from './plan.ts';

/** Half the edges of the mosaic; an odd last row or column is dropped. */
export function halfSize(mosaic: Size): Size {
  return { widthPx: mosaic.widthPx >> 1, heightPx: mosaic.heightPx >> 1 };
}

/** 256 kB of float RGB: a strip stays in the second-level cache from binning to encoding. */
const stripSamples = 65_536;

/**
 * Walks the half-size picture from the top in strips of whole rows. `visit` gets balanced camera RGB of rows
 * `rowStart` … `rowEnd - 1` at the start of a buffer that is overwritten for the next strip, and may change it.
 */
export function forEachStrip(
  mosaic: Mosaic,
  plan: BinPlan,
  highlights: 'rebuild' | 'clip',
  visit: (strip: Float32Array, rowStart: number, rowEnd: number) => void,
): void {
  const { widthPx, heightPx } = halfSize(mosaic);
  const rows = Math.max(1, Math.floor(stripSamples / (widthPx * 3)));
  const strip = new Float32Array(rows * widthPx * 3);
  const numbers = Float64Array.of(
    ...plan.black,
    ...plan.scale,
    ...plan.saturation,
    plan.redPosition,
    plan.bluePosition,
    plan.greenPositions[0],
  );
  for (let row = 0; row < heightPx; row += rows) {
    const rowEnd = Math.min(heightPx, row + rows);
    binMosaic(mosaic.values, mosaic.widthPx, row, rowEnd, numbers, highlights === 'rebuild', strip);
    visit(strip, row, rowEnd);
  }
}
