import {
  applyMatrix,
  invertMatrix,
  type Matrix3,
  multiplyMatrices,
  rgbSpaces,
  type Vector3,
} from '../colour/index.ts';
import {
  type CalibratedMatrix,
  type ColourCalibration,
  type RawHints,
  shotXyzToCamera,
} from '../develop/index.ts';
import type { Finding } from '../facts/index.ts';
import type { LibRawMetadata } from './libraw-facts.ts';

export interface CameraColour {
  readonly asShotMultipliers: Vector3;
  readonly xyzToCamera: Matrix3 | null;
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
      calibration === null ? decoderMatrix(metadata, neutral) : shotXyzToCamera(calibration, neutral),
    issues: stated === null ? [{ code: 'develop.no-as-shot-balance', args: {} }] : [],
  };
}

/** Best first: the caller's matrix, the file's own (DNG ColorMatrix), LibRaw's table of cameras. */
function calibrationOf(metadata: LibRawMetadata, hints: RawHints): ColourCalibration | null {
  const given = hints.colorMatrix === undefined ? null : matrixOf([hints.colorMatrix], 9);
  if (given !== null) return { matrices: [{ xyzToCamera: given, temperatureK: d65K }] };
  const [first, second] = metadata.color_data.dng_color
    .map((light) => dngMatrix(light, metadata.color_data.dng_levels.analogbalance))
    .filter((light) => light !== null);
  if (first !== undefined) return { matrices: second === undefined ? [first] : [first, second] };
  const table = matrixOf(metadata.color_data.cam_xyz.slice(0, 3), 3);
  return table === null ? null : { matrices: [{ xyzToCamera: table, temperatureK: d65K }] };
}

const d65K = 6504;

/** AnalogBalance x CameraCalibration x ColorMatrix (DNG 1.7.1, chapter 6); an absent calibration reads as zeros. */
function dngMatrix(
  light: LibRawMetadata['color_data']['dng_color'][number],
  analogBalance: readonly number[],
): CalibratedMatrix | null {
  const colorMatrix = matrixOf(light.colormatrix.slice(0, 3), 3);
  if (colorMatrix === null) return null;
  const calibration = matrixOf(
    light.calibration.slice(0, 3).map((row) => row.slice(0, 3)),
    3,
  );
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

/** DNG AsShotNeutral, or the maker's balance: LibRaw gives multipliers with zero meaning unknown. */
function statedNeutral(metadata: LibRawMetadata): Vector3 | null {
  const [r = 0, g = 0, b = 0] = metadata.color_data.dng_levels.asshotneutral;
  if (r > 0 && g > 0 && b > 0) return [r, g, b];
  const [red = 0, green = 0, blue = 0] = metadata.color_data.cam_mul;
  return red > 0 && green > 0 && blue > 0 ? [1 / red, 1 / green, 1 / blue] : null;
}

function daylightNeutral(metadata: LibRawMetadata): Vector3 {
  const [red = 0, green = 0, blue = 0] = metadata.color_data.pre_mul;
  return red > 0 && green > 0 && blue > 0 ? [1 / red, 1 / green, 1 / blue] : [1, 1, 1];
}

/** Where only LibRaw's balanced-camera-to-sRGB matrix is known (some makers write one): turned into the same form. */
function decoderMatrix(metadata: LibRawMetadata, neutral: Vector3): Matrix3 | null {
  const cameraToSrgb = matrixOf(
    metadata.color_data.rgb_cam.slice(0, 3).map((row) => row.slice(0, 3)),
    3,
  );
  if (cameraToSrgb === null) return null;
  const [r, g, b] = applyMatrix(cameraToSrgb, [1, 1, 1]);
  if (!(r > 0.5 && g > 0.5 && b > 0.5)) return null;
  const balance: Matrix3 = [1 / neutral[0], 0, 0, 0, 1 / neutral[1], 0, 0, 0, 1 / neutral[2]];
  return invertMatrix(multiplyMatrices(rgbSpaces.srgb.toXyz, multiplyMatrices(cameraToSrgb, balance)));
}

/** Nine numbers out of rows, or null where they are missing, not finite, or all zero (LibRaw's "unknown"). */
function matrixOf(rows: readonly (readonly number[])[], perRow: number): Matrix3 | null {
  const flat = rows.flatMap((row) => row.slice(0, perRow));
  const [a, b, c, d, e, f, g, h, i] = flat;
  if (flat.length !== 9 || !flat.every(Number.isFinite) || flat.every((value) => value === 0)) return null;
  if (a === undefined || b === undefined || c === undefined || d === undefined || e === undefined)
    return null;
  if (f === undefined || g === undefined || h === undefined || i === undefined) return null;
  return [a, b, c, d, e, f, g, h, i];
}
