import type { Mosaic } from '../facts/index.ts';
import type { Region, Size } from '../image/index.ts';
import { balanceRows } from './kernels/balance-rows.ts';
import { binMosaic } from './kernels/bin-mosaic.ts';
import { demosaicRows } from './kernels/demosaic-rows.ts';
import { clipStrip, rebuildStrip } from './kernels/rebuild-highlights.ts';
import { type BinPlan, binNumbers } from './plan.ts';

/** A picture in balanced camera RGB that comes strip by strip, as the sensor lies. */
export interface CameraLight extends Size {
  /** Writes rows `rowStart` … `rowEnd - 1`, interleaved, to the start of `strip`. */
  readonly fill: (rowStart: number, rowEnd: number, strip: Float32Array) => void;
}

/** What is done where channels are lost: see `rebuildHighlights` and `clipHighlights` in reference.ts. */
export type Highlights = 'rebuild' | 'clip';

/** Half the edges of the mosaic; an odd last row or column is dropped. */
export function halfSize({ widthPx, heightPx }: Size): Size {
  return { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
}

/** Each 2x2 block of the mosaic as one pixel. */
export function halfLight(mosaic: Mosaic, plan: BinPlan, highlights: Highlights): CameraLight {
  return { ...halfSize(mosaic), fill: halfRows(mosaic.values, mosaic.widthPx, plan, highlights) };
}

/** The same without a size: `CameraLight.fill` of a mosaic `widthPx` wide. */
export function halfRows(
  values: Uint16Array,
  widthPx: number,
  plan: BinPlan,
  highlights: Highlights,
): CameraLight['fill'] {
  const numbers = binNumbers(plan);
  const finish = finisher(plan, highlights);
  return (rowStart, rowEnd, strip) => {
    binMosaic(values, widthPx, rowStart, rowEnd, numbers, strip);
    finish(strip, (rowEnd - rowStart) * (widthPx >> 1));
  };
}

/** A window of the mosaic, demosaiced; the pixels around it are taken into account. At least 1 x 1, and within it. */
export function fullLight(
  mosaic: Mosaic,
  plan: BinPlan,
  window: Region,
  highlights: Highlights,
): CameraLight {
  const { leftPx, topPx, widthPx, heightPx } = window;
  const numbers = binNumbers(plan);
  const saturation = Float64Array.from(plan.saturation);
  const finish = finisher(plan, highlights);
  let plane = new Float32Array(0);
  return {
    widthPx,
    heightPx,
    fill: (rowStart, rowEnd, strip) => {
      const rows = rowEnd - rowStart;
      const top = topPx + rowStart;
      const stride = widthPx + 4;
      if (plane.length < stride * (rows + 4)) plane = new Float32Array(stride * (rows + 4));
      const { values, widthPx: mosaicWidth, heightPx: mosaicHeight } = mosaic;
      balanceRows(values, mosaicWidth, mosaicHeight, leftPx - 2, top - 2, stride, rows + 4, numbers, plane);
      demosaicRows(plane, widthPx, rows, filtersFrom(mosaic, top, leftPx), saturation, strip);
      finish(strip, rows * widthPx);
    },
  };
}

function finisher(plan: BinPlan, highlights: Highlights): (strip: Float32Array, pixels: number) => void {
  const saturation = Float64Array.from(plan.saturation);
  return highlights === 'rebuild'
    ? (strip, pixels) => rebuildStrip(strip, pixels, saturation)
    : (strip, pixels) => clipStrip(strip, pixels * 3);
}

/** Filters of the 2x2 block whose corner lies at (row, column). */
function filtersFrom({ filters }: Mosaic, row: number, column: number): Uint8Array {
  return Uint8Array.from([0, 1, 2, 3], (position) => {
    const y = (row + (position >> 1)) & 1;
    const x = (column + position) & 1;
    return filters[y * 2 + x] ?? 1;
  });
}
