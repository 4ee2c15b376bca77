import {
  applyMatrix,
  type Chromaticity,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  parseMatrix,
  rgbSpaces,
  type Vector3,
} from '../colour/index.ts';
import {
  type CalibratedMatrix,
  type ColourCalibration,
  neutralToWhite,
  type RawHints,
  shotXyzToCamera,
} from '../develop/index.ts';
import type { Finding } from '../facts/index.ts';
import type { LibRawMetadata } from './libraw-facts.ts';

export interface CameraColour {
  readonly asShotMultipliers: Vector3;
  readonly xyzToCamera: Matrix3 | null;
  readonly asShotWhite: Chromaticity | null;
  readonly issues: readonly Finding[];
}

/** Neutral and matrix for the light of the shot, from what LibRaw read and what the caller knows better. */
export function cameraColour(metadata: LibRawMetadata, hints: RawHints): CameraColour {
  const calibration = calibrationOf(metadata, hints);
  const stated = hints.asShotNeutral ?? statedNeutral(metadata);
  const neutral = stated ?? daylightNeutral(metadata);
  return {
    asShotMultipliers: [neutral[1] / neutral[0], 1, neutral[1] / neutral[2]],
    xyzToCamera:
      (calibration === null ? null : shotXyzToCamera(calibration, neutral)) ??
      decoderMatrix(metadata, neutral),
    asShotWhite: calibration === null ? null : neutralToWhite(calibration, neutral),
    issues: stated === null ? [{ code: 'develop.no-as-shot-balance', args: {} }] : [],
  };
}

/** Best first: the caller's matrix, the file's own (DNG ColorMatrix), LibRaw's table of cameras. */
function calibrationOf(metadata: LibRawMetadata, hints: RawHints): ColourCalibration | null {
  const given = hints.colorMatrix === undefined ? null : parseMatrix(hints.colorMatrix);
  if (given !== null) return { matrices: [{ xyzToCamera: given, temperatureK: d65K }] };
  const [first, second] = metadata.color_data.dng_color
    .map((light) => dngMatrix(light, metadata.color_data.dng_levels.analogbalance))
    .filter((light) => light !== null);
  if (first !== undefined) return { matrices: second === undefined ? [first] : [first, second] };
  const table = matrixOf(metadata.color_data.cam_xyz);
  return table === null ? null : { matrices: [{ xyzToCamera: table, temperatureK: d65K }] };
}

const d65K = 6504;

/** AnalogBalance x CameraCalibration x ColorMatrix (DNG 1.7.1, chapter 6); an absent calibration reads as zeros. */
function dngMatrix(
  light: LibRawMetadata['color_data']['dng_color'][number],
  analogBalance: readonly number[],
): CalibratedMatrix | null {
  const colorMatrix = matrixOf(light.colormatrix);
  if (colorMatrix === null) return null;
  const calibration = matrixOf(light.calibration);
  const calibrated = calibration === null ? colorMatrix : multiplyMatrices(calibration, colorMatrix);
  const [r, g, b] = [analogBalance[0] || 1, analogBalance[1] || 1, analogBalance[2] || 1];
  return {
    xyzToCamera: multiplyMatrices([r, 0, 0, 0, g, 0, 0, 0, b], calibrated),
    temperatureK: lightSourceTemperature(light.illuminant),
  };
}

/** Exif 2.32 LightSource, as far as DNG files use it for CalibrationIlluminant. Others count as daylight. */
function lightSourceTemperature(lightSource: number): number {
  switch (lightSource) {
    case 3: // tungsten
      return 2850;
    case 17: // standard light A
      return 2856;
    case 18: // B
      return 4874;
    case 19: // C
      return 6774;
    case 20: // D55
      return 5503;
    case 22: // D75
      return 7504;
    case 23: // D50
      return 5003;
    case 24: // ISO studio tungsten
      return 3200;
    default:
      return d65K;
  }
}

/** DNG AsShotNeutral, or the maker's balance as multipliers. */
function statedNeutral({ color_data }: LibRawMetadata): Vector3 | null {
  return usableNeutral(color_data.dng_levels.asshotneutral) ?? neutralOf(color_data.cam_mul);
}

/** The neutral of daylight, as LibRaw works it out from the matrix; grey where it knows nothing. */
function daylightNeutral({ color_data }: LibRawMetadata): Vector3 {
  return neutralOf(color_data.pre_mul) ?? [1, 1, 1];
}

function neutralOf([r = 0, g = 0, b = 0]: readonly number[]): Vector3 | null {
  return usableNeutral([1 / r, 1 / g, 1 / b]);
}

/** No light and no sensor put more than six stops between the channels of a grey; zeros are LibRaw's "unknown". */
const neutralRatioMax = 64;

function usableNeutral([r = 0, g = 0, b = 0]: readonly number[]): Vector3 | null {
  const smallest = Math.min(r, g, b);
  const largest = Math.max(r, g, b);
  return smallest > 0 && largest < Number.POSITIVE_INFINITY && largest / smallest <= neutralRatioMax
    ? [r, g, b]
    : null;
}

/** Where only LibRaw's balanced-camera-to-sRGB matrix is known (some makers write one): turned into the same form. */
function decoderMatrix(metadata: LibRawMetadata, neutral: Vector3): Matrix3 | null {
  const cameraToSrgb = matrixOf(metadata.color_data.rgb_cam);
  if (cameraToSrgb === null) return null;
  const [r, g, b] = applyMatrix(cameraToSrgb, [1, 1, 1]);
  if (!(r > 0.5 && g > 0.5 && b > 0.5)) return null;
  const balance: Matrix3 = [1 / neutral[0], 0, 0, 0, 1 / neutral[1], 0, 0, 0, 1 / neutral[2]];
  return invertMatrix(multiplyMatrices(rgbSpaces.srgb.toXyz, multiplyMatrices(cameraToSrgb, balance)));
}

/** The first three columns of the first three rows; null where they are missing or all zero, LibRaw's "unknown". */
function matrixOf(rows: readonly (readonly number[])[]): Matrix3 | null {
  const numbers = rows.slice(0, 3).flatMap((row) => row.slice(0, 3));
  return numbers.every((value) => value === 0) ? null : parseMatrix(numbers);
}
