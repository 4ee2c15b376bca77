import { orientPixels } from './kernels/orient-pixels.ts';
import type { Raster, Size } from './raster.ts';

/**
 * Exif 2.32 tag 0x0112: how the stored raster must be turned to be upright.
 * 1 as stored · 2 mirror left-right · 3 turn 180° · 4 mirror top-bottom · 5 transpose · 6 turn 90° clockwise ·
 * 7 transverse · 8 turn 90° counter-clockwise.
 */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** The orientation a number from a file means; anything that is none of the eight counts as upright (Exif: "reserved"). */
export function parseOrientation(value: number): Orientation {
  switch (value) {
    case 2:
    case 3:
    case 4:
    case 5:
    case 6:
    case 7:
    case 8:
      return value;
    default:
      return 1;
  }
}

/** Size of a stored raster after it was turned upright: orientations 5 to 8 swap the edges. */
export function uprightSize({ widthPx, heightPx }: Size, orientation: Orientation): Size {
  return orientation >= 5 ? { widthPx: heightPx, heightPx: widthPx } : { widthPx, heightPx };
}

/** The upright raster. Orientation 1 gives the raster itself; all others give a new one and leave the given one alone. */
export function turnUpright<
  Samples extends Float32Array | Uint16Array | Uint8Array,
  R extends Raster<Samples>,
>(raster: R & Raster<Samples>, orientation: Orientation): R {
  if (orientation === 1) return raster;
  const data = emptyLike(raster.data);
  orientPixels(raster.data, raster.widthPx, raster.heightPx, raster.channels, orientation, data);
  return { ...raster, ...uprightSize(raster, orientation), data };
}

function emptyLike<Samples extends Float32Array | Uint16Array | Uint8Array>(samples: Samples): Samples {
  const { length } = samples;
  const made =
    samples instanceof Uint8Array
      ? new Uint8Array(length)
      : samples instanceof Uint16Array
        ? new Uint16Array(length)
        : new Float32Array(length);
  // Of the same kind as the one given, by the three cases above.
  return made as Samples;
}

/**
 * Where the pixel at (row, column) of the upright picture lies in the stored one: the plain reference that
 * `kernels/orient-pixels.ts` is tested against. Exif names the sides where the stored row 0 and column 0 belong.
 */
export function storedPosition(
  row: number,
  column: number,
  stored: Size,
  orientation: Orientation,
): { readonly row: number; readonly column: number } {
  const lastRow = stored.heightPx - 1;
  const lastColumn = stored.widthPx - 1;
  switch (orientation) {
    case 1:
      return { row, column };
    case 2:
      return { row, column: lastColumn - column };
    case 3:
      return { row: lastRow - row, column: lastColumn - column };
    case 4:
      return { row: lastRow - row, column };
    case 5:
      return { row: column, column: row };
    case 6:
      return { row: lastRow - column, column: row };
    case 7:
      return { row: lastRow - column, column: lastColumn - row };
    case 8:
      return { row: column, column: lastColumn - row };
  }
}

/** A part of a picture, whole pixels. */
export interface Region extends Size {
  readonly leftPx: number;
  readonly topPx: number;
}

/** Where a part of the upright picture lies in the stored one. `stored` is the size of that. */
export function storedRegion(upright: Region, stored: Size, orientation: Orientation): Region {
  const { leftPx, topPx, widthPx, heightPx } = upright;
  const corner = storedPosition(topPx, leftPx, stored, orientation);
  const opposite = storedPosition(topPx + heightPx - 1, leftPx + widthPx - 1, stored, orientation);
  return {
    leftPx: Math.min(corner.column, opposite.column),
    topPx: Math.min(corner.row, opposite.row),
    ...uprightSize({ widthPx, heightPx }, orientation),
  };
}
