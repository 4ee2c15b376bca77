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
  type ColourSource,
  neutralToWhite,
  type RawHints,
  shotXyzToCamera,
} from '../develop/index.ts';
import type { Finding } from '../facts/index.ts';
import type { LibRawMetadata } from './libraw-facts.ts';
import { d65K, lightSourceTemperature } from './light-source.ts';

export interface CameraColour {
  readonly asShotMultipliers: Vector3;
  readonly xyzToCamera: Matrix3 | null;
  readonly asShotWhite: Chromaticity | null;
  readonly colours: ColourSource;
  readonly issues: readonly Finding[];
}

/** Neutral and matrix for the light of the shot, from what LibRaw read and what the caller knows better. */
export function cameraColour(metadata: LibRawMetadata, hints: RawHints): CameraColour {
  const known = calibrationOf(metadata, hints);
  const calibration = known?.calibration ?? null;
  const stated = hints.asShotNeutral ?? statedNeutral(metadata);
  const neutral = stated ?? daylightNeutral(metadata);
  const byCalibration = calibration === null ? null : shotXyzToCamera(calibration, neutral);
  const xyzToCamera = byCalibration ?? decoderMatrix(metadata, neutral);
  return {
    asShotMultipliers: [neutral[1] / neutral[0], 1, neutral[1] / neutral[2]],
    xyzToCamera,
    asShotWhite: calibration === null ? null : neutralToWhite(calibration, neutral),
    colours:
      byCalibration !== null && known !== null ? known.source : xyzToCamera === null ? 'none' : 'maker',
    issues: stated === null ? [{ code: 'develop.no-as-shot-balance', args: {} }] : [],
  };
}

interface KnownCalibration {
  readonly calibration: ColourCalibration;
  readonly source: ColourSource;
}

/** Best first: the caller's matrix, the file's own (DNG), LibRaw's table of cameras. */
function calibrationOf(metadata: LibRawMetadata, hints: RawHints): KnownCalibration | null {
  const given = hints.colorMatrix === undefined ? null : parseMatrix(hints.colorMatrix);
  if (given !== null) return { calibration: single(given), source: 'colour-matrices' };
  if (hints.calibration !== undefined) {
    const hasForward = hints.calibration.matrices.some(({ forward }) => forward !== undefined);
    return {
      calibration: hints.calibration,
      source: hasForward ? 'forward-matrices' : 'colour-matrices',
    };
  }
  const [first, second] = metadata.color_data.dng_color.map(dngMatrix).filter((light) => light !== null);
  if (first !== undefined) {
    const [r, g, b] = metadata.color_data.dng_levels.analogbalance;
    const calibration: ColourCalibration = {
      matrices: second === undefined ? [first] : [first, second],
      analogBalance: [r || 1, g || 1, b || 1],
    };
    return { calibration, source: 'colour-matrices' };
  }
  const table = matrixOf(metadata.color_data.cam_xyz);
  return table === null ? null : { calibration: single(table), source: 'table' };
}

function single(xyzToCamera: Matrix3): ColourCalibration {
  return { matrices: [{ xyzToCamera, temperatureK: d65K }] };
}

/** One light of a DNG as LibRaw reads it, for tags that `formats` could not reach; an absent calibration reads as zeros. */
function dngMatrix(light: LibRawMetadata['color_data']['dng_color'][number]): CalibratedMatrix | null {
  const xyzToCamera = matrixOf(light.colormatrix);
  if (xyzToCamera === null) return null;
  const cameraCalibration = matrixOf(light.calibration);
  return {
    xyzToCamera,
    temperatureK: lightSourceTemperature(light.illuminant),
    ...(cameraCalibration === null ? {} : { cameraCalibration }),
  };
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
  // One is what LibRaw begins with, and leaves where nobody told it anything.
  if (cameraToSrgb === null || isIdentity(cameraToSrgb)) return null;
  const [r, g, b] = applyMatrix(cameraToSrgb, [1, 1, 1]);
  if (!(r > 0.5 && g > 0.5 && b > 0.5)) return null;
  const balance: Matrix3 = [1 / neutral[0], 0, 0, 0, 1 / neutral[1], 0, 0, 0, 1 / neutral[2]];
  return invertMatrix(multiplyMatrices(rgbSpaces.srgb.toXyz, multiplyMatrices(cameraToSrgb, balance)));
}

function isIdentity(matrix: Matrix3): boolean {
  return matrix.every((value, at) => Math.abs(value - (at % 4 === 0 ? 1 : 0)) < 1e-6);
}

/** The first three columns of the first three rows; null where they are missing or all zero, LibRaw's "unknown". */
function matrixOf(rows: readonly (readonly number[])[]): Matrix3 | null {
  const numbers = rows.slice(0, 3).flatMap((row) => row.slice(0, 3));
  return numbers.every((value) => value === 0) ? null : parseMatrix(numbers);
}
