import { expect, test } from 'vitest';
import {
  adaptWhite,
  applyMatrix,
  d50Xyz,
  d65Xyz,
  deltaE2000,
  diagonalMatrix,
  invertMatrix,
  labToXyz,
  type Matrix3,
  multiplyMatrices,
  rgbSpaces,
  type Vector3,
  xyzToLab,
} from '../colour/index.ts';
import type { Mosaic, Triple } from '../facts/index.ts';
import { planDevelop } from './plan.ts';
import { onTargetBalance, type TargetBalance, targetBalance } from './target-balance.ts';

/** A made-up sensor to XYZ D50 under the lamps of the set; its neutral is what it sends to white. */
const sensorToXyz: Matrix3 = [0.9, 0.25, 0.12, 0.35, 0.95, -0.08, 0.02, -0.12, 1.9];

/** What the camera took for white, which the lamps are not, and the matrix it was built with, which is another. */
const asShot: Triple = [2.1, 1, 1.4];
const mosaic: Mosaic = {
  values: new Uint16Array(16),
  widthPx: 4,
  heightPx: 4,
  filters: [0, 1, 1, 2],
  blackLevels: [0, 0, 0, 0],
  whiteLevel: 16_383,
  asShotMultipliers: asShot,
  xyzToCamera: [0.65, -0.1, -0.08, -0.4, 1.2, 0.2, -0.05, 0.2, 0.6],
  asShotWhite: [0.3457, 0.3585],
  orientation: 1,
  baselineExposureEv: 0.5,
};

/** L*a*b* D50 of six patches: manufacturer's data of the 24-patch target before November 2014 (colour-science/colour 9d743142). */
const published: readonly Vector3[] = [
  [37.986, 13.555, 14.059],
  [49.927, -4.88, -21.905],
  [42.101, 53.378, 28.19],
  [55.261, -38.342, 31.37],
  [28.778, 14.179, -50.297],
  [50.867, -0.153, -0.27],
];

/** The profile that is exact for this sensor, as a frame with these multipliers would give it. */
function profileFrom(multipliers: Triple): TargetBalance {
  const [r, g, b] = multipliers;
  const toXyz = multiplyMatrices(sensorToXyz, diagonalMatrix([1 / r, 1 / g, 1 / b]));
  const made = targetBalance({ toXyz, multipliers });
  if (made === null) throw new Error('an exact profile makes a balance');
  return made;
}

/** L*a*b* D50 of what a patch is developed to; light of the working space is linear Rec.2020 (ITU-R BT.2020), D65. */
function developed(of: Mosaic, lab: Vector3): Vector3 {
  const toSensor = invertMatrix(sensorToXyz);
  if (toSensor === null) throw new Error('the sensor has an inverse');
  const bare = applyMatrix(toSensor, labToXyz(lab));
  const balanced = applyMatrix(diagonalMatrix(of.asShotMultipliers), bare);
  const xyz = applyMatrix(rgbSpaces.rec2020.toXyz, applyMatrix(planDevelop(of).toWorking, balanced));
  const white = applyMatrix(diagonalMatrix(of.asShotMultipliers), applyMatrix(toSensor, d50Xyz))[1];
  const [x, y, z] = applyMatrix(adaptWhite(d65Xyz, d50Xyz), xyz);
  // Exposure is another question: scaled so that the white is white.
  return xyzToLab([x / white, y / white, z / white]);
}

function worst(of: Mosaic): number {
  return Math.max(...published.map((lab) => deltaE2000(developed(of, lab), lab)));
}

test('colours that a profile knows come out as published, whatever the camera took for white', () => {
  const balance = profileFrom(asShot);
  expect(worst(mosaic)).toBeGreaterThan(10);
  expect(worst(onTargetBalance(mosaic, balance))).toBeLessThan(1e-6);
  // A later frame was balanced otherwise by its camera: what counts is the target.
  const later = { ...mosaic, asShotMultipliers: [1.3, 1, 2.2] as const };
  expect(worst(onTargetBalance(later, balance))).toBeLessThan(1e-6);
});

test('one light makes one balance, whatever the frame with the target was balanced by', () => {
  const one = profileFrom(asShot);
  const other = profileFrom([1, 1.6, 1.1]);
  for (const [index, value] of one.multipliers.entries())
    expect(other.multipliers[index]).toBeCloseTo(value, 12);
  expect(one.multipliers[1]).toBe(1);
});

test('the samples are left alone, and a target that agrees with the camera keeps its white', () => {
  const same = {
    multipliers: asShot,
    xyzToCamera: mosaic.xyzToCamera ?? [],
  };
  const on = onTargetBalance(
    { ...mosaic, asShotMultipliers: neutralOf(mosaic) },
    { ...same, multipliers: neutralOf(mosaic) },
  );
  expect(on.values).toBe(mosaic.values);
  expect(on.asShotWhite?.[0]).toBeCloseTo(0.3457, 6);
  expect(on.asShotWhite?.[1]).toBeCloseTo(0.3585, 6);
  const { asShotWhite: _, ...unknown } = mosaic;
  expect(onTargetBalance(unknown, profileFrom(asShot))).not.toHaveProperty('asShotWhite');
});

test('numbers that make no light make no balance', () => {
  expect(targetBalance({ toXyz: [1, 0, 0, 0, 1, 0, 0, 0, 0], multipliers: asShot })).toBeNull();
  expect(targetBalance({ toXyz: [-1, 0, 0, 0, 1, 0, 0, 0, 1], multipliers: asShot })).toBeNull();
  expect(targetBalance({ toXyz: [1, 0, 0], multipliers: asShot })).toBeNull();
  // Of a finished picture.
  expect(targetBalance({ toXyz: sensorToXyz, multipliers: null })).toBeNull();
});

/** Multipliers that agree with the mosaic's own matrix. */
function neutralOf({ xyzToCamera }: Mosaic): Triple {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = xyzToCamera ?? [];
  const [red, green, blue] = applyMatrix([a, b, c, d, e, f, g, h, i], d65Xyz);
  return [green / red, 1, green / blue];
}
