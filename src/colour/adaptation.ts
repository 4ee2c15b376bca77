import {
  applyMatrix,
  diagonalMatrix,
  invertKnownMatrix,
  type Matrix3,
  multiplyMatrices,
  type Vector3,
} from './matrix.ts';

/** Bradford cone responses (Lam 1985; the numbers as ICC.1:2022 Annex E prints them). */
const bradfordCone: Matrix3 = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];
const bradfordConeInverse: Matrix3 = invertKnownMatrix(bradfordCone);

/**
 * The matrix from XYZ seen under white `from` to XYZ seen under white `to`, by linear Bradford adaptation
 * (ICC.1:2022, Annex E). Whites are XYZ; their ratio of Y scales the result.
 */
export function adaptWhite(from: Vector3, to: Vector3): Matrix3 {
  const source = applyMatrix(bradfordCone, from);
  const target = applyMatrix(bradfordCone, to);
  const gains: Vector3 = [target[0] / source[0], target[1] / source[1], target[2] / source[2]];
  return multiplyMatrices(bradfordConeInverse, multiplyMatrices(diagonalMatrix(gains), bradfordCone));
}
