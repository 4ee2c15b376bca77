import { type Chromaticity, parseMatrix, type Vector3 } from '../colour/index.ts';
import {
  type CalibratedMatrix,
  type ColourCalibration,
  type RawHints,
  whiteToNeutral,
} from '../develop/index.ts';
import type { Inspection } from '../formats/index.ts';
import { lightSourceTemperature } from './light-source.ts';

type DngTags = NonNullable<Inspection['tags']['dng']>;

/**
 * What a DNG says of its camera's colours (DNG 1.7.1, chapter 6), and its neutral where it states a white instead of one.
 * Cameras of three colours only. A third light (DNG 1.6) is left out; the first two hold without it.
 */
export function dngColour(dng: DngTags): Pick<RawHints, 'calibration' | 'asShotNeutral'> {
  const calibration = calibrationOf(dng);
  if (calibration === null) return {};
  const white = dng.asShotNeutral === undefined ? whiteOf(dng) : null;
  return { calibration, ...(white === null ? {} : { asShotNeutral: whiteToNeutral(calibration, white) }) };
}

function calibrationOf(dng: DngTags): ColourCalibration | null {
  // "" is the default of both (DNG 1.7.1, CameraCalibrationSignature): what does not belong together is not combined.
  const isOwn = (dng.cameraCalibrationSignature ?? '') === (dng.profileCalibrationSignature ?? '');
  const light = (
    colorMatrix: readonly number[] | undefined,
    calibration: readonly number[] | undefined,
    forward: readonly number[] | undefined,
    illuminant: number | undefined,
  ): CalibratedMatrix | null => {
    const xyzToCamera = parsed(colorMatrix);
    if (xyzToCamera === null) return null;
    const cameraCalibration = isOwn ? parsed(calibration) : null;
    const forwardMatrix = parsed(forward);
    return {
      xyzToCamera,
      temperatureK: lightSourceTemperature(illuminant ?? 0),
      ...(cameraCalibration === null ? {} : { cameraCalibration }),
      ...(forwardMatrix === null ? {} : { forward: forwardMatrix }),
    };
  };
  const first = light(
    dng.colorMatrix1,
    dng.cameraCalibration1,
    dng.forwardMatrix1,
    dng.calibrationIlluminant1,
  );
  const second = light(
    dng.colorMatrix2,
    dng.cameraCalibration2,
    dng.forwardMatrix2,
    dng.calibrationIlluminant2,
  );
  if (first === null) return null;
  const analogBalance = vectorOf(dng.analogBalance);
  return {
    matrices: second === null ? [first] : [first, second],
    ...(analogBalance === null ? {} : { analogBalance }),
  };
}

/** All zeros are some writers' "unknown". */
function parsed(numbers: readonly number[] | undefined): ReturnType<typeof parseMatrix> {
  return numbers === undefined || numbers.every((value) => value === 0) ? null : parseMatrix(numbers);
}

function vectorOf(numbers: readonly number[] | undefined): Vector3 | null {
  const [r = 0, g = 0, b = 0] = numbers ?? [];
  return numbers?.length === 3 && [r, g, b].every((value) => value > 0 && value < 64) ? [r, g, b] : null;
}

/** A chromaticity that a light can have: within the bounds of `neutralToWhite`. */
function whiteOf({ asShotWhiteXY }: DngTags): Chromaticity | null {
  const [x = 0, y = 0] = asShotWhiteXY ?? [];
  return x > 0.1 && y > 0.1 && x + y < 1 ? [x, y] : null;
}
