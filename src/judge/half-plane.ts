import type { Size } from '../image/index.ts';
import { halfLight } from './kernels/half-light.ts';
import type { LightGrid } from './light-grid.ts';

/** Light above black at half the grid's edges: `data[row * widthPx + column]`. */
export interface HalfPlane extends Size {
  readonly data: Float32Array;
}

/** Half-size light: what edges are found in and the light of parts is measured on. */
export function halfPlaneOf({ values, widthPx, heightPx, greenParity, blacks }: LightGrid): HalfPlane {
  const half = { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
  const data = new Float32Array(half.widthPx * half.heightPx);
  halfLight(values, widthPx, heightPx, greenParity, blacks, data);
  return { data, ...half };
}
