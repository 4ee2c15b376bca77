import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import {
  adaptWhite,
  applyMatrix,
  type Chromaticity,
  d65Xyz,
  invertMatrix,
  type Matrix3,
  rgbSpaces,
  type Vector3,
  xyToXyz,
} from '../colour/index.ts';
import {
  balancedToWorking,
  type ColourCalibration,
  matrixForTemperature,
  neutralToWhite,
  shotXyzToCamera,
  whiteToNeutral,
} from './camera-colour.ts';

interface DngVector {
  readonly calibration_temperature_1: number;
  readonly calibration_temperature_2: number;
  readonly color_matrix_1: number[][];
  readonly color_matrix_2: number[][];
  readonly interpolated_at_5000: number[][];
  readonly white_xy: Chromaticity;
  readonly neutral_identity_calibration: Vector3;
}

// Worked example of the DNG specification's camera model, from colour-science/colour-hdri's tests (see the file).
const vector = readVector<DngVector>('colour-dng-colour-model.json');

function matrix(rows: readonly number[][]): Matrix3 {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = rows.flat();
  return [a, b, c, d, e, f, g, h, i];
}

const calibration: ColourCalibration = {
  matrices: [
    { xyzToCamera: matrix(vector.color_matrix_1), temperatureK: vector.calibration_temperature_1 },
    { xyzToCamera: matrix(vector.color_matrix_2), temperatureK: vector.calibration_temperature_2 },
  ],
};

test('matrices are interpolated in reciprocal temperature as in the worked example, and held at the ends', () => {
  matrixForTemperature(calibration, 5000).forEach((value, index) => {
    expect(value).toBeCloseTo(vector.interpolated_at_5000.flat()[index] ?? Number.NaN, 7);
  });
  expect(matrixForTemperature(calibration, 2000)).toEqual(matrix(vector.color_matrix_1));
  expect(matrixForTemperature(calibration, 9000)).toEqual(matrix(vector.color_matrix_2));
});

test('a white gives the neutral of the worked example, and that neutral gives the white back', () => {
  const neutral = whiteToNeutral(calibration, vector.white_xy);
  neutral.forEach((value, index) => {
    expect(Math.abs(value - (vector.neutral_identity_calibration[index] ?? 0))).toBeLessThan(1e-4);
  });
  const white = neutralToWhite(calibration, vector.neutral_identity_calibration);
  expect(white?.[0]).toBeCloseTo(vector.white_xy[0], 4);
  expect(white?.[1]).toBeCloseTo(vector.white_xy[1], 4);
});

test('the shot matrix takes the neutral to D65, and a colour where Bradford adaptation takes it', () => {
  const neutral = whiteToNeutral(calibration, vector.white_xy);
  const xyzToCamera = shotXyzToCamera(calibration, neutral);
  const cameraToXyz = xyzToCamera === null ? null : invertMatrix(xyzToCamera);
  if (cameraToXyz === null) throw new Error('no matrix');
  const [X, Y, Z] = applyMatrix(cameraToXyz, neutral);
  expect(X / Y).toBeCloseTo(d65Xyz[0], 4);
  expect(Z / Y).toBeCloseTo(d65Xyz[2], 4);
  // By hand: camera values of an XYZ seen under that white, sent through, equal the same XYZ adapted by Bradford.
  const seen: Vector3 = [0.3, 0.2, 0.1];
  const camera = applyMatrix(matrixForTemperature(calibration, 5700), seen);
  const single: ColourCalibration = {
    matrices: [{ xyzToCamera: matrixForTemperature(calibration, 5700), temperatureK: 5700 }],
  };
  const shot = shotXyzToCamera(single, applyMatrix(single.matrices[0].xyzToCamera, xyToXyz(vector.white_xy)));
  const back = shot === null ? null : invertMatrix(shot);
  if (back === null) throw new Error('no matrix');
  const expected = applyMatrix(adaptWhite(xyToXyz(vector.white_xy), d65Xyz), seen);
  applyMatrix(back, camera).forEach((value, index) => {
    expect(value).toBeCloseTo(expected[index] ?? Number.NaN, 9);
  });
});

test('balanced white becomes working white exactly, also for a matrix made for another neutral', () => {
  const neutral: Vector3 = [0.6, 1, 0.4];
  const toWorking = balancedToWorking(matrix(vector.color_matrix_2), neutral);
  if (toWorking === null) throw new Error('no matrix');
  for (const value of applyMatrix(toWorking, [1, 1, 1])) expect(value).toBeCloseTo(1, 12);
});

test('a camera that sees as Rec. 2020 needs no matrix', () => {
  const toWorking = balancedToWorking(rgbSpaces.rec2020.fromXyz, [1, 1, 1]);
  toWorking?.forEach((value, index) => {
    expect(value).toBeCloseTo(index % 4 === 0 ? 1 : 0, 12);
  });
});

test.each([
  [
    'a matrix of zeros',
    { matrices: [{ xyzToCamera: matrix([[0, 0, 0, 0, 0, 0, 0, 0, 0]]), temperatureK: 6504 }] },
    [1, 1, 1],
  ],
  ['a neutral that is no light', calibration, [0.0001, 0.0001, 1]],
  ['a neutral of zeros', calibration, [0, 0, 0]],
  ['a neutral that is not a number', calibration, [Number.NaN, 1, 1]],
] as const)('%s gives no matrix rather than a wrong one', (_, wrong, neutral) => {
  expect(shotXyzToCamera(wrong, neutral)).toBeNull();
});
