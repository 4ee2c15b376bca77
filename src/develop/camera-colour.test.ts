import { expect, test } from 'vitest';
import { readVector } from '../../test/vector.ts';
import {
  adaptWhite,
  applyMatrix,
  type Chromaticity,
  d65Xyz,
  invertMatrix,
  type Matrix3,
  pcsXyz,
  rgbSpaces,
  type Vector3,
  xyToXyz,
} from '../colour/index.ts';
import {
  balancedToWorking,
  type ColourCalibration,
  forwardToXyz,
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
  readonly camera_calibration: number[][];
  readonly forward_matrix: number[][];
  readonly neutral_identity_calibration: Vector3;
  readonly neutral_with_calibration: Vector3;
  readonly camera_to_xyz_d50: number[][];
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

/** The same camera with this body's calibration and a forward matrix, for both lights alike. */
const whole: ColourCalibration = {
  matrices: [
    { ...calibration.matrices[0], ...ofBody() },
    { ...(calibration.matrices[1] ?? calibration.matrices[0]), ...ofBody() },
  ],
};

function ofBody(): { readonly cameraCalibration: Matrix3; readonly forward: Matrix3 } {
  return { cameraCalibration: matrix(vector.camera_calibration), forward: matrix(vector.forward_matrix) };
}

test('a body that differs from its model gives the neutral of the worked example', () => {
  whiteToNeutral(whole, vector.white_xy).forEach((value, index) => {
    expect(Math.abs(value - (vector.neutral_with_calibration[index] ?? 0))).toBeLessThan(1e-4);
  });
});

test('forward matrices lead to D50 as in the worked example, and so does the shot matrix', () => {
  // The example's own neutral for this step.
  const neutral = vector.neutral_identity_calibration;
  const toD50 = forwardToXyz(whole, vector.white_xy, neutral);
  toD50?.forEach((value, index) => {
    // The example's forward matrix makes D50 to four digits, ours is scaled to make it exactly.
    expect(Math.abs(value - (vector.camera_to_xyz_d50.flat()[index] ?? Number.NaN))).toBeLessThan(4e-4);
  });
  expect(toD50).not.toBeNull();
  const shot = shotXyzToCamera(whole, neutral);
  const toD65 = shot === null ? null : invertMatrix(shot);
  if (toD65 === null || toD50 === null) throw new Error('no matrix');
  const red = applyMatrix(toD50, [1, 0.2, 0.1]);
  applyMatrix(toD65, [1, 0.2, 0.1]).forEach((value, index) => {
    expect(value).toBeCloseTo(applyMatrix(adaptWhite(pcsXyz, d65Xyz), red)[index] ?? Number.NaN, 9);
  });
});

test('a forward matrix of one light holds for both; analog balance is taken out again', () => {
  const [first] = whole.matrices;
  const { forward: _, ...second } = whole.matrices[1] ?? first;
  const one: ColourCalibration = { matrices: [first, second] };
  const both = forwardToXyz(whole, vector.white_xy, vector.neutral_with_calibration);
  expect(forwardToXyz(one, vector.white_xy, vector.neutral_with_calibration)).toEqual(both);
  // Channels that were raised in the camera: the same light has camera values as much higher, and is the same colour.
  const raised: ColourCalibration = { ...whole, analogBalance: [2, 1, 1.5] };
  const neutral = whiteToNeutral(raised, vector.white_xy);
  const toD50 = forwardToXyz(raised, vector.white_xy, neutral);
  if (toD50 === null || both === null) throw new Error('no matrix');
  const scaled = applyMatrix(both, [0.3, 0.2, 0.1]);
  const found = applyMatrix(toD50, [0.6, 0.2, 0.15]);
  // Each neutral has its own largest element; the ratios are what a colour is.
  expect(found[0] / found[1]).toBeCloseTo(scaled[0] / scaled[1], 3);
  expect(found[2] / found[1]).toBeCloseTo(scaled[2] / scaled[1], 3);
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
