import {
  adaptWhite,
  applyMatrix,
  type Chromaticity,
  d65Xyz,
  diagonalMatrix,
  identityMatrix,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  pcsXyz,
  rgbSpaces,
  type Vector3,
  xyToTemperature,
  xyToXyz,
  xyzToXy,
} from '../colour/index.ts';

/**
 * The camera colour model of the Digital Negative specification (1.7.1, chapter 6, "Mapping Camera Color Space to CIE XYZ
 * Space"), with the as-shot neutral as its starting point.
 */
export interface ColourCalibration {
  /** As measured under one or two lights. */
  readonly matrices: readonly [CalibratedMatrix] | readonly [CalibratedMatrix, CalibratedMatrix];
  /** AnalogBalance: gains of the sensor's channels before the file was written. Default 1 1 1. */
  readonly analogBalance?: Vector3;
}

export interface CalibratedMatrix {
  /** ColorMatrix: XYZ to camera RGB of the model. */
  readonly xyzToCamera: Matrix3;
  /** CameraCalibration: camera RGB of the model to that of this body. Default none. */
  readonly cameraCalibration?: Matrix3;
  /** ForwardMatrix: balanced camera RGB to XYZ of D50. */
  readonly forward?: Matrix3;
  /** Temperature of the light it was measured under, K. */
  readonly temperatureK: number;
}

/**
 * D65-relative XYZ to camera RGB for a shot whose neutral is `neutral` (camera RGB of a grey, any scale): the white of
 * the shot is found from the neutral, and adapted to D65 (Bradford). Null where the numbers make no light: a matrix
 * without inverse, a neutral that would be an impossible white.
 */
export function shotXyzToCamera(calibration: ColourCalibration, neutral: Vector3): Matrix3 | null {
  const white = neutralToWhite(calibration, neutral);
  if (white === null) return null;
  const byForward = forwardToXyz(calibration, white, neutral);
  if (byForward !== null) return invertMatrix(multiplyMatrices(adaptWhite(pcsXyz, d65Xyz), byForward));
  const cameraToXyz = invertMatrix(matrixForTemperature(calibration, xyToTemperature(white)));
  if (cameraToXyz === null) return null;
  return invertMatrix(multiplyMatrices(adaptWhite(xyToXyz(white), d65Xyz), cameraToXyz));
}

/**
 * Chromaticity of the light under which `neutral` is the camera's grey. The specification solves it by repetition: a white
 * gives a temperature, the temperature a matrix, the matrix a new white. Ten rounds settle to 1e-7.
 */
export function neutralToWhite(calibration: ColourCalibration, neutral: Vector3): Chromaticity | null {
  let white: Chromaticity = [0.3457, 0.3585];
  for (let round = 0; round < 10; round++) {
    const cameraToXyz = invertMatrix(matrixForTemperature(calibration, xyToTemperature(white)));
    if (cameraToXyz === null) return null;
    const next = xyzToXy(applyMatrix(cameraToXyz, neutral));
    if (!isLight(next)) return null;
    white = next;
  }
  return white;
}

/**
 * Camera RGB to XYZ of D50 by the forward matrices, which are made so that a neutral comes out as D50 exactly: FM x
 * inverse of the neutral of the model x inverse of (AB CC). Null where a light has none, or nothing can be inverted. The
 * rows of FM are scaled to make D50 of 1 1 1, should rounding have lost that.
 */
export function forwardToXyz(
  calibration: ColourCalibration,
  white: Chromaticity,
  neutral: Vector3,
): Matrix3 | null {
  const temperatureK = xyToTemperature(white);
  // Where one light has none, that of the other holds for both.
  const either = calibration.matrices.find((light) => light.forward !== undefined)?.forward;
  const toModel = invertMatrix(bodyForTemperature(calibration, temperatureK));
  if (either === undefined || toModel === null) return null;
  const forward = interpolated(calibration, temperatureK, (light) => light.forward ?? either);
  const [r, g, b] = applyMatrix(toModel, neutral);
  const [X, Y, Z] = applyMatrix(forward, [1, 1, 1]);
  if (!(r > 0 && g > 0 && b > 0 && X > 0 && Y > 0 && Z > 0)) return null;
  const toD50 = diagonalMatrix([pcsXyz[0] / X, pcsXyz[1] / Y, pcsXyz[2] / Z]);
  const balance = diagonalMatrix([1 / r, 1 / g, 1 / b]);
  return multiplyMatrices(multiplyMatrices(toD50, forward), multiplyMatrices(balance, toModel));
}

/** XYZ to camera RGB for a light: AnalogBalance x CameraCalibration x ColorMatrix. */
export function matrixForTemperature(calibration: ColourCalibration, temperatureK: number): Matrix3 {
  const model = interpolated(calibration, temperatureK, (light) => light.xyzToCamera);
  return multiplyMatrices(bodyForTemperature(calibration, temperatureK), model);
}

/** Camera RGB of the model to that of the body, as its file holds it: AnalogBalance x CameraCalibration. */
function bodyForTemperature(calibration: ColourCalibration, temperatureK: number): Matrix3 {
  const { analogBalance = [1, 1, 1] } = calibration;
  const body = interpolated(calibration, temperatureK, (light) => light.cameraCalibration ?? identityMatrix);
  return multiplyMatrices(diagonalMatrix(analogBalance), body);
}

/** Linear in the reciprocal of the temperature, held at the ends. */
function interpolated(
  { matrices }: ColourCalibration,
  temperatureK: number,
  of: (light: CalibratedMatrix) => Matrix3,
): Matrix3 {
  const [first, second] = matrices;
  if (second === undefined) return of(first);
  const span = 1 / first.temperatureK - 1 / second.temperatureK;
  if (span === 0) return of(first);
  const share = Math.min(1, Math.max(0, (1 / temperatureK - 1 / second.temperatureK) / span));
  const [a, b, c, d, e, f, g, h, i] = of(second);
  const [A, B, C, D, E, F, G, H, I] = of(first);
  const mix = (from: number, to: number): number => from * (1 - share) + to * share;
  return [mix(a, A), mix(b, B), mix(c, C), mix(d, D), mix(e, E), mix(f, F), mix(g, G), mix(h, H), mix(i, I)];
}

/** The neutral that a light gives: (AB CC CM) XYZ(white), largest element 1. */
export function whiteToNeutral(calibration: ColourCalibration, white: Chromaticity): Vector3 {
  const matrix = matrixForTemperature(calibration, xyToTemperature(white));
  const [r, g, b] = applyMatrix(matrix, xyToXyz(white));
  const largest = Math.max(r, g, b);
  return [r / largest, g / largest, b / largest];
}

/**
 * Balanced camera RGB (neutral = 1 1 1) to linear Rec.2020, white to white exactly: each row is divided by its sum, which
 * differs from 1 by rounding only where `xyzToCamera` was made for this neutral. Null where there is no inverse.
 */
export function balancedToWorking(xyzToCamera: Matrix3, neutral: Vector3): Matrix3 | null {
  const cameraToXyz = invertMatrix(xyzToCamera);
  if (cameraToXyz === null) return null;
  const matrix = multiplyMatrices(
    rgbSpaces.rec2020.fromXyz,
    multiplyMatrices(cameraToXyz, diagonalMatrix(neutral)),
  );
  const [r, g, b] = applyMatrix(matrix, [1, 1, 1]);
  if (!(r > 0 && g > 0 && b > 0)) return null;
  return multiplyMatrices(diagonalMatrix([1 / r, 1 / g, 1 / b]), matrix);
}

/** Generous bounds around every light there is; outside, a matrix or a neutral is wrong. */
function isLight([x, y]: Chromaticity): boolean {
  return x > 0.1 && x < 0.75 && y > 0.1 && y < 0.75 && x + y < 1;
}
