import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  d65Xyz,
  diagonalMatrix,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  parseMatrix,
  rgbSpaces,
} from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';

/** Linear sRGB to XYZ D50. */
export const srgbToXyz: Matrix3 = multiplyMatrices(adaptWhite(d65Xyz, d50Xyz), rgbSpaces.srgb.toXyz);

/**
 * Balanced camera RGB to XYZ D50 as a frame is developed without a look: by the file's matrix, white to white in
 * Rec.2020, as `develop` does it. Null where the file and the decoder know no matrix.
 */
export function mosaicToXyz({ xyzToCamera, asShotMultipliers }: Mosaic): Matrix3 | null {
  const matrix = xyzToCamera === null ? null : parseMatrix(xyzToCamera);
  const cameraToXyz = matrix === null ? null : invertMatrix(matrix);
  if (cameraToXyz === null) return null;
  const [red, green, blue] = asShotMultipliers;
  const toWorking = multiplyMatrices(
    rgbSpaces.rec2020.fromXyz,
    multiplyMatrices(cameraToXyz, diagonalMatrix([1 / red, 1 / green, 1 / blue])),
  );
  const [r, g, b] = applyMatrix(toWorking, [1, 1, 1]);
  if (!(r > 0 && g > 0 && b > 0)) return null;
  const balanced = multiplyMatrices(diagonalMatrix([1 / r, 1 / g, 1 / b]), toWorking);
  return multiplyMatrices(adaptWhite(d65Xyz, d50Xyz), multiplyMatrices(rgbSpaces.rec2020.toXyz, balanced));
}
