import type { Orientation } from '../../facts/index.ts';

/**
 * An affine map in the order the canvas takes it: x' = a x + c y + e, y' = b x + d y + f.
 */
export interface Affine {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/**
 * The map from pixels as stored (width × height of the stored raster) to the upright picture.
 * Source: Exif 2.32 (CIPA DC-008-2019) 4.6.4 A, Orientation: where the 0th row and 0th column of the raster lie.
 */
export function storedToUpright(orientation: Orientation, storedWidth: number, storedHeight: number): Affine {
  const w = storedWidth;
  const h = storedHeight;
  switch (orientation) {
    case 1:
      return { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };
    case 2:
      return { a: -1, b: 0, c: 0, d: 1, e: w, f: 0 };
    case 3:
      return { a: -1, b: 0, c: 0, d: -1, e: w, f: h };
    case 4:
      return { a: 1, b: 0, c: 0, d: -1, e: 0, f: h };
    case 5:
      return { a: 0, b: 1, c: 1, d: 0, e: 0, f: 0 };
    case 6:
      return { a: 0, b: 1, c: -1, d: 0, e: h, f: 0 };
    case 7:
      return { a: 0, b: -1, c: -1, d: 0, e: h, f: w };
    case 8:
      return { a: 0, b: -1, c: 1, d: 0, e: 0, f: w };
  }
}

/** Whether this orientation lays the raster on its side, so that width and height change places. */
export function liesOnItsSide(orientation: Orientation): boolean {
  return orientation >= 5;
}

/** First `first`, then `second`. */
export function composed(first: Affine, second: Affine): Affine {
  return {
    a: second.a * first.a + second.c * first.b,
    b: second.b * first.a + second.d * first.b,
    c: second.a * first.c + second.c * first.d,
    d: second.b * first.c + second.d * first.d,
    e: second.a * first.e + second.c * first.f + second.e,
    f: second.b * first.e + second.d * first.f + second.f,
  };
}
