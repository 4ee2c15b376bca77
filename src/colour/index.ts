/** colour: colour science on single colours. Nothing here clips. */
export { adaptWhite } from './adaptation.ts';
export { deltaE76, deltaE2000 } from './difference.ts';
export { chromaStep, justNoticed, mapIntoGamut } from './gamut-mapping.ts';
export { encodeIccProfile, type IccProfileOptions } from './icc-profile.ts';
export { type IccProfileFacts, readIccProfile } from './icc-read.ts';
export { labToXyz, xyzToLab } from './lab.ts';
export { xyToDuv, xyToUv76 } from './locus-distance.ts';
export {
  applyMatrix,
  diagonalMatrix,
  identityMatrix,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  parseMatrix,
  type Vector3,
} from './matrix.ts';
export { coneToOklab, oklabToCone, oklabToXyz, xyzToOklab, xyzToOklabCone } from './oklab.ts';
export { linearRgbToRgb, type RgbSpace, type RgbSpaceName, rgbSpaceNames, rgbSpaces } from './rgb-spaces.ts';
export { temperatureToXy, xyToTemperature } from './temperature.ts';
export type { TransferFunction } from './transfer-functions.ts';
export { type Chromaticity, d50Xyz, d65Xyz, pcsXyz, xyToXyz, xyzToXy } from './white-points.ts';
