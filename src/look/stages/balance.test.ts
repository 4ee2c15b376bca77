import { expect, test } from 'vitest';
import { readVector } from '../../../test/vector.ts';
import {
  applyMatrix,
  d65Xyz,
  invertMatrix,
  linearRgbToRgb,
  type Matrix3,
  rgbSpaces,
  temperatureToXy,
  type Vector3,
  xyToXyz,
} from '../../colour/index.ts';
import { unknownProfile } from '../profile.ts';
import { balanceMatrix } from './balance.ts';

interface Card {
  readonly file: string;
  readonly card_linear_rgb: readonly [number, number, number];
}

const { images } = readVector<{ images: readonly Card[] }>('white-balance/card.json');
const toWorking = linearRgbToRgb(rgbSpaces.srgb, rgbSpaces.rec2020);

test.each(images)(
  'the card of $file, pointed at, becomes neutral at its own luminance',
  ({ card_linear_rgb }) => {
    const rgb = applyMatrix(toWorking, card_linear_rgb);
    const { matrix } = balanceMatrix({ from: 'neutral', rgb: [...rgb] }, unknownProfile);
    const [r, g, b] = applyMatrix(matrix, rgb);
    const [, , , weightR, weightG, weightB] = rgbSpaces.rec2020.toXyz;
    const Y = weightR * rgb[0] + weightG * rgb[1] + weightB * rgb[2];
    for (const value of [r, g, b]) expect(value).toBeCloseTo(Y, 9);
  },
);

test('a target of the same light balances as a neutral pointed at does, and says so where there is none', () => {
  const rgb: Vector3 = [0.3, 0.2, 0.1];
  const pointed = balanceMatrix({ from: 'neutral', rgb: [...rgb] }, unknownProfile);
  expect(balanceMatrix({ from: 'target' }, { ...unknownProfile, targetNeutral: rgb }).matrix).toEqual(
    pointed.matrix,
  );
  expect(balanceMatrix({ from: 'target' }, unknownProfile).findings[0]?.code).toBe('look.no-target');
});

test('the temperature that the camera balanced for changes nothing; a higher one makes the picture warmer', () => {
  const asShotWhite = temperatureToXy(5200, 0.002);
  const profile = { ...unknownProfile, asShotWhite };
  const same = balanceMatrix({ from: 'temperature', temperatureK: 5200, duv: 0.002 }, profile);
  const grey: Vector3 = [0.18, 0.18, 0.18];
  for (const value of applyMatrix(same.matrix, grey)) expect(value).toBeCloseTo(0.18, 9);
  expect(same.findings).toEqual([]);
  const warmer = balanceMatrix({ from: 'temperature', temperatureK: 7500, duv: 0.002 }, profile);
  const [r, , b] = applyMatrix(warmer.matrix, grey);
  expect(r).toBeGreaterThan(b);
});

/**
 * What a camera that balanced for 5500 K makes of a grey card under a lamp of 3200 K, by ICC.1:2022, Annex E: the lamp's
 * white goes the way that the 5500 K white goes to D65, a cone at a time. The Bradford matrix is typed here again.
 */
function greyUnderLamp(lampK: number, balancedK: number): Vector3 {
  const bradford: Matrix3 = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];
  const cones = (xyz: Vector3): Vector3 => applyMatrix(bradford, xyz);
  const [lamp, from, to] = [xyToXyz(temperatureToXy(lampK)), xyToXyz(temperatureToXy(balancedK)), d65Xyz].map(
    cones,
  );
  const inverse = invertMatrix(bradford);
  if (lamp === undefined || from === undefined || to === undefined || inverse === null)
    throw new Error('no cones');
  const seen: Vector3 = [
    (lamp[0] * to[0]) / from[0],
    (lamp[1] * to[1]) / from[1],
    (lamp[2] * to[2]) / from[2],
  ];
  return applyMatrix(rgbSpaces.rec2020.fromXyz, applyMatrix(inverse, seen));
}

test('a grey under the light that is named becomes neutral', () => {
  const seen = greyUnderLamp(3200, 5500);
  expect(seen[0]).toBeGreaterThan(seen[2] * 1.5);
  const profile = { ...unknownProfile, asShotWhite: temperatureToXy(5500) };
  const { matrix } = balanceMatrix({ from: 'temperature', temperatureK: 3200, duv: 0 }, profile);
  const [r, g, b] = applyMatrix(matrix, seen);
  expect(r / g).toBeCloseTo(1, 3);
  expect(b / g).toBeCloseTo(1, 3);
  const other = balanceMatrix({ from: 'temperature', temperatureK: 3400, duv: 0 }, profile).matrix;
  const [r2, , b2] = applyMatrix(other, seen);
  expect(r2 / b2).toBeGreaterThan(1.02);
});
