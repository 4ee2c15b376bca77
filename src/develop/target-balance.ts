import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  d65Xyz,
  diagonalMatrix,
  invertMatrix,
  multiplyMatrices,
  parseMatrix,
  xyToXyz,
  xyzToXy,
} from '../colour/index.ts';
import type { CameraProfile, Mosaic, Triple } from '../facts/index.ts';

/** What a frame is developed by in place of its own balance and the camera's matrix: plain data, made from a target. */
export interface TargetBalance {
  /** Multipliers for red, green, blue that make the target's greys neutral, green = 1. */
  readonly multipliers: Triple;
  /** CIE XYZ (D65-relative) to camera RGB before any balance, row-major 3x3; its scale means nothing. */
  readonly xyzToCamera: readonly number[];
}

/**
 * The balance and the matrix of a profile. Its neutral is what its matrix sends to the white of D50. Null of a finished
 * picture's profile, and where the numbers make no light: a matrix without inverse, a neutral that is not above 0.
 */
export function targetBalance({
  toXyz,
  multipliers,
}: Pick<CameraProfile, 'toXyz' | 'multipliers'>): TargetBalance | null {
  const matrix = parseMatrix(toXyz);
  if (multipliers === null || matrix === null) return null;
  // The profile begins at light balanced as its own frame was; other frames may have been balanced otherwise.
  const cameraToXyz = multiplyMatrices(
    adaptWhite(d50Xyz, d65Xyz),
    multiplyMatrices(matrix, diagonalMatrix(multipliers)),
  );
  const xyzToCamera = invertMatrix(cameraToXyz);
  if (xyzToCamera === null) return null;
  const [red, green, blue] = applyMatrix(xyzToCamera, d65Xyz);
  if (!(red > 0 && green > 0 && blue > 0)) return null;
  return { multipliers: [green / red, 1, green / blue], xyzToCamera };
}

/**
 * The mosaic as if its camera had balanced it by the target and known the target's matrix; the samples are the same ones.
 * Its white is told by the camera's own matrix, which knows what light it was measured under; a profile knows none.
 */
export function onTargetBalance(
  { asShotWhite, ...mosaic }: Mosaic,
  { multipliers, xyzToCamera }: TargetBalance,
): Mosaic {
  const balanced = { ...mosaic, asShotMultipliers: multipliers, xyzToCamera };
  const own = mosaic.xyzToCamera === null ? null : parseMatrix(mosaic.xyzToCamera);
  const ownToXyz = own === null ? null : invertMatrix(own);
  if (ownToXyz === null || asShotWhite === undefined) return balanced;
  const [red, green, blue] = multipliers;
  const neutral = applyMatrix(ownToXyz, [1 / red, 1 / green, 1 / blue]);
  const [x, y] = xyzToXy(applyMatrix(adaptWhite(d65Xyz, xyToXyz(asShotWhite)), neutral));
  return x > 0 && y > 0 && x + y < 1 ? { ...balanced, asShotWhite: [x, y] } : balanced;
}
