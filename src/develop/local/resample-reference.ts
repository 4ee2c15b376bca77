import type { Matrix3, Vector3 } from '../../colour/index.ts';
import { lanczos, lanczosLobes } from '../kernels/resample-rows.ts';

/**
 * The light at a place (x, y) of a picture that is taken from another through a homography: the plain form of `resampleRow`,
 * which tables its weights. The kernel lies along the source's own axes and is as wide as a pixel of the result is there (P.
 * Heckbert: Fundamentals of texture mapping and image warping, 1989, 3.5; from memory), never narrower than the source's.
 * `at` gives the source's pixels, and its nearest ones outside.
 */
export function resampleReference(
  at: (row: number, column: number) => Vector3,
  toSource: Matrix3,
  x: number,
  y: number,
): Vector3 {
  const [a, b, c, d, e, f, g, h, i] = toSource;
  const depth = g * x + h * y + i;
  const sourceX = (a * x + b * y + c) / depth;
  const sourceY = (d * x + e * y + f) / depth;
  const spreadX = Math.max(1, Math.hypot(a - sourceX * g, b - sourceX * h) / depth);
  const spreadY = Math.max(1, Math.hypot(d - sourceY * g, e - sourceY * h) / depth);
  const columns = pixelsAbout(sourceX - 0.5, spreadX);
  const rows = pixelsAbout(sourceY - 0.5, spreadY);
  const light = [0, 0, 0];
  for (const row of rows) {
    for (const column of columns) {
      at(row.index, column.index).forEach((value, channel) => {
        light[channel] = (light[channel] ?? 0) + row.weight * column.weight * value;
      });
    }
  }
  const [red = 0, green = 0, blue = 0] = light.map((value) => Math.min(1, Math.max(0, value)));
  return [red, green, blue];
}

interface Weighted {
  readonly index: number;
  readonly weight: number;
}

function pixelsAbout(middle: number, spread: number): readonly Weighted[] {
  const first = Math.ceil(middle - lanczosLobes * spread);
  const last = Math.floor(middle + lanczosLobes * spread);
  const found = Array.from({ length: last - first + 1 }, (_, k) => ({
    index: first + k,
    weight: lanczos((first + k - middle) / spread),
  }));
  const sum = found.reduce((total, { weight }) => total + weight, 0);
  return found.map(({ index, weight }) => ({ index, weight: weight / sum }));
}
