/**
 * The stand-in's invented sensor and lens. The figures are of the size a present full-frame camera has (common
 * practice, no source); none is measured from a real one.
 */

/** Printed names. `UniqueCameraModel` is what a decoder keys its tables on, so it names no maker's camera. */
export const cameraMake = 'Setside';
export const cameraModel = 'Stand-in';
export const uniqueCameraModel = 'Setside Stand-in';
export const lensModel = 'Stand-in 90mm';

/** Black level at the four places of the RGGB mosaic. Unequal on purpose: a reader that takes one for all is found out. */
export const blackLevels: readonly [number, number, number, number] = [512, 515, 510, 513];
/** 14 bits less a little headroom, as sensors have. */
export const whiteLevel = 15_871;
/** Of a sample on its way out of the sensor. */
export const sampleBits = 14;
/** 0 red, 1 green, 2 blue, row by row. */
export const filters: readonly [number, number, number, number] = [0, 1, 1, 2];

/**
 * CIE XYZ (2 degrees, light D65) to camera RGB, row-major: DNG `ColorMatrix1` with `CalibrationIlluminant1` D65.
 * Invented; rows have the signs and sizes of published matrices. The whole set is lit by D65.
 */
export const xyzToCamera: readonly number[] = [
  0.775,
  -0.225,
  -0.08, //
  -0.46,
  1.27,
  0.21, //
  -0.065,
  0.175,
  0.635,
];

/**
 * Linear Rec.2020 RGB (the renderer's space) to CIE XYZ, D65. ITU-R BT.2020-2 primaries; digits as in
 * CSS Color 4, conversions.js.
 */
export const rec2020ToXyz: readonly number[] = [
  0.6369580483012914,
  0.14461690358620832,
  0.1688809751641721, //
  0.2627002120112671,
  0.6779980715188708,
  0.05930171646986196, //
  0,
  0.028072693049087428,
  1.060985057710791,
];

/** D65 white as BT.2020 fixes it (x 0.3127, y 0.3290), Y = 1. */
export const d65White: readonly [number, number, number] = [0.3127 / 0.329, 1, (1 - 0.3127 - 0.329) / 0.329];

/** Camera response to a neutral under D65, green = 1: DNG `AsShotNeutral`. */
export const asShotNeutral: readonly [number, number, number] = neutralOf(xyzToCamera, d65White);

/**
 * Stops to raise scene values by so that 1.0 is a perfect diffuser in the full light: the sensor saturates that much
 * above it. DNG `BaselineExposure`.
 */
export const baselineExposureEv = 0.42;

/** Electrons in green at saturation, sensitivity 100. */
const fullWellElectrons = 48_000;
/** Standard deviation of reading one pixel. */
const readNoiseElectrons = 3.2;

/** Electrons for one step of the raw value. */
export const electronsPerStep: number = fullWellElectrons / (whiteLevel - 512);
/** Read noise as a standard deviation in raw steps. */
export const readNoiseSteps: number = readNoiseElectrons / electronsPerStep;

/** The settings a studio frame is shot with: strobes, base sensitivity, stopped down for the ware's depth. */
export const settings = {
  exposureTime: [1, 125],
  fNumber: [8, 1],
  sensitivity: 100,
  focalLengthMm: 90,
} as const;

function neutralOf(matrix: readonly number[], white: readonly number[]): [number, number, number] {
  const row = (index: number): number =>
    [0, 1, 2].reduce((sum, k) => sum + (matrix[index * 3 + k] ?? 0) * (white[k] ?? 0), 0);
  return [row(0) / row(1), 1, row(2) / row(1)];
}
