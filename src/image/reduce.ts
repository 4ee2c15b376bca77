import { addRow, averageRow } from './kernels/average-area.ts';
import type { RgbFloat, Size } from './raster.ts';

/**
 * The picture reduced to `size` by area averaging. Averages what a lens would average, so values must be linear light.
 * Errors: RangeError where `size` is larger than the picture.
 */
export function reduceByArea(raster: RgbFloat, size: Size): RgbFloat {
  const data = new Float32Array(size.widthPx * size.heightPx * 3);
  const reducer = areaReducer(raster, size, (line, row) => data.set(line, row * line.length));
  reducer(raster.data, raster.heightPx);
  return { data, ...size, channels: 3 };
}

/** Takes the next `rows` rows of a picture, interleaved, from the start of `strip`. */
export type StripTaker = (strip: Float32Array, rows: number) => void;

/**
 * Area averaging of a picture that comes strip by strip from the top: each reduced pixel is the mean of the area it
 * covers, border pixels counted by the share of them that lies inside. `finish` gets each reduced row once, in order, as
 * soon as all that belongs to it is there, in a buffer that is overwritten by the next.
 * Errors: RangeError where `to` is larger than `from`.
 */
export function areaReducer(
  from: Size,
  to: Size,
  finish: (line: Float32Array, row: number) => void,
): StripTaker {
  if (to.widthPx > from.widthPx || to.heightPx > from.heightPx) {
    throw new RangeError('areaReducer: cannot enlarge');
  }
  // Rows first: adding whole rows up is the cheapest loop there is, and only reduced rows are then averaged along.
  const sum = new Float32Array(from.widthPx * 3);
  const line = new Float32Array(to.widthPx * 3);
  const perOut = from.heightPx / to.heightPx;
  let row = 0;
  let outRow = 0;
  let isFresh = true;
  const add = (strip: Float32Array, offset: number, weight: number): void => {
    addRow(strip, offset, weight, isFresh, sum);
    isFresh = false;
  };
  const close = (): void => {
    averageRow(sum, from.widthPx, 1 / perOut, line, to.widthPx);
    finish(line, outRow++);
    isFresh = true;
  };
  return (strip, rows) => {
    for (let index = 0; index < rows; index++, row++) {
      const offset = index * sum.length;
      // A row reaches into two reduced rows at most, since perOut >= 1. Shares below `grain` are rounding.
      const border = outRow === to.heightPx - 1 ? from.heightPx : (outRow + 1) * perOut;
      const inside = Math.min(1, border - row);
      add(strip, offset, inside);
      if (row + 1 < border - grain) continue;
      close();
      if (inside < 1 - grain) add(strip, offset, 1 - inside);
    }
  };
}

const grain = 1e-9;
