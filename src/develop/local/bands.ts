import type { Matrix3 } from '../../colour/index.ts';
import type { Region, Size } from '../../image/index.ts';
import { resampleRow, weightsLength } from '../kernels/resample-rows.ts';
import { sourceRegion } from './plan-placed.ts';

/** Display-linear RGB of a window of a picture; overwritten by the next. */
export type WindowLight = (window: Region) => Float32Array;

/**
 * Rows that are made at a time, in tiles so wide: margins cost a quarter more at the widest smoothing. Memory beside mosaic
 * and result: the rows, 12 bytes a pixel (75 MB for the widest sensor), and a tile with its margins, 30 MB at the most.
 */
const bandRows = 384;
const tileColumns = 512;

/** Writes a tile of the window into a band that begins at row `top`. */
export type TileMaker = (tile: Region, band: Float32Array, window: Region, top: number) => void;

/** Walks a window from the top in bands, each made of tiles. */
export function forEachBand(
  window: Region,
  make: TileMaker,
  finish: (band: Float32Array, topPx: number, rows: number) => void,
): void {
  const band = new Float32Array(Math.min(bandRows, window.heightPx) * window.widthPx * 3);
  const bottom = window.topPx + window.heightPx;
  const right = window.leftPx + window.widthPx;
  for (let topPx = window.topPx; topPx < bottom; topPx += bandRows) {
    const heightPx = Math.min(bandRows, bottom - topPx);
    for (let leftPx = window.leftPx; leftPx < right; leftPx += tileColumns) {
      const widthPx = Math.min(tileColumns, right - leftPx);
      make({ leftPx, topPx, widthPx, heightPx }, band, window, topPx);
    }
    finish(band, topPx, heightPx);
  }
}

/** Tiles of light as it comes. */
export function copyTiles(light: WindowLight): TileMaker {
  return (tile, band, window) => {
    const made = light(tile);
    const length = tile.widthPx * 3;
    for (let row = 0; row < tile.heightPx; row++) {
      const to = (row * window.widthPx + tile.leftPx - window.leftPx) * 3;
      band.set(made.subarray(row * length, (row + 1) * length), to);
    }
  };
}

/** Tiles of light resampled through `toSource`, out of a picture of `size`. */
export function placeTiles(light: WindowLight, toSource: Matrix3, size: Size): TileMaker {
  const copied = wholePixels(toSource);
  if (copied !== null) return copyPlaced(light, copied, size);
  const numbers = Float64Array.from(toSource);
  const weightsX = new Float64Array(weightsLength);
  const weightsY = new Float64Array(weightsLength);
  return (tile, band, window, top) => {
    const source = sourceRegion(tile, toSource, size);
    const made = light(source);
    for (let row = 0; row < tile.heightPx; row++) {
      resampleRow(
        made,
        source.widthPx,
        source.heightPx,
        source.leftPx,
        source.topPx,
        numbers,
        tile.leftPx + 0.5,
        top + row + 0.5,
        tile.widthPx,
        weightsX,
        weightsY,
        band,
        (row * window.widthPx + tile.leftPx - window.leftPx) * 3,
      );
    }
  };
}

/** Steps in whole pixels of the source: where column and row of what is placed lead, and where its first pixel lies. */
export interface WholePixels {
  readonly acrossX: number;
  readonly acrossY: number;
  readonly downX: number;
  readonly downY: number;
  readonly firstX: number;
  readonly firstY: number;
}

/** A homography that takes pixels to pixels (a crop, a flip, a quarter turn), where it is one. */
export function wholePixels([a, b, c, d, e, f, g, h, i]: Matrix3): WholePixels | null {
  const turns = [a, b, d, e].every((value) => value === 0 || Math.abs(value) === 1);
  if (!turns || g !== 0 || h !== 0 || i !== 1) return null;
  const firstX = (a + b) / 2 + c - 0.5;
  const firstY = (d + e) / 2 + f - 0.5;
  if (!Number.isInteger(firstX) || !Number.isInteger(firstY)) return null;
  return { acrossX: a, acrossY: d, downX: b, downY: e, firstX, firstY };
}

/** Tiles whose pixels are the source's own: what resampling would give, without its arithmetic. */
function copyPlaced(light: WindowLight, steps: WholePixels, size: Size): TileMaker {
  const { acrossX, acrossY, downX, downY, firstX, firstY } = steps;
  return (tile, band, window, top) => {
    const x = firstX + tile.leftPx * acrossX + top * downX;
    const y = firstY + tile.leftPx * acrossY + top * downY;
    const lastX = x + (tile.widthPx - 1) * acrossX + (tile.heightPx - 1) * downX;
    const lastY = y + (tile.widthPx - 1) * acrossY + (tile.heightPx - 1) * downY;
    const leftPx = Math.max(0, Math.min(x, lastX));
    const topPx = Math.max(0, Math.min(y, lastY));
    const widthPx = Math.min(size.widthPx, Math.max(x, lastX) + 1) - leftPx;
    const heightPx = Math.min(size.heightPx, Math.max(y, lastY) + 1) - topPx;
    const made = light({ leftPx, topPx, widthPx, heightPx });
    const step = (acrossY * widthPx + acrossX) * 3;
    for (let row = 0; row < tile.heightPx; row++) {
      let from = ((y + row * downY - topPx) * widthPx + x + row * downX - leftPx) * 3;
      let to = (row * window.widthPx + tile.leftPx - window.leftPx) * 3;
      for (let column = 0; column < tile.widthPx; column++, from += step, to += 3) {
        band[to] = made[from] ?? 0;
        band[to + 1] = made[from + 1] ?? 0;
        band[to + 2] = made[from + 2] ?? 0;
      }
    }
  };
}
