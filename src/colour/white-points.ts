import type { Vector3 } from './matrix.ts';

/** CIE 1931 chromaticity. */
export type Chromaticity = readonly [x: number, y: number];

/** D65 as IEC 61966-2-1 and ITU-R BT.2020-2 print it. */
export const d65Xy: Chromaticity = [0.3127, 0.329];

/** D50 as ISO 22028-2 prints it for ROMM RGB. */
export const d50Xy: Chromaticity = [0.3457, 0.3585];

export const d65Xyz: Vector3 = xyToXyz(d65Xy);
export const d50Xyz: Vector3 = xyToXyz(d50Xy);

/** The D50 of the ICC profile connection space (ICC.1:2022, 7.2.16). It differs from {@link d50Xyz} in the fourth digit. */
export const pcsXyz: Vector3 = [0.9642, 1, 0.8249];

/** XYZ of a chromaticity at Y = 1; y must not be 0. */
export function xyToXyz([x, y]: Chromaticity): Vector3 {
  return [x / y, 1, (1 - x - y) / y];
}

/** Chromaticity of XYZ; the sum must not be 0. */
export function xyzToXy([X, Y, Z]: Vector3): Chromaticity {
  const sum = X + Y + Z;
  return [X / sum, Y / sum];
}
