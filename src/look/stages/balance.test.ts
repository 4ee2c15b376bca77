import { expect, test } from 'vitest';
import { readVector } from '../../../test/vector.ts';
import {
  applyMatrix,
  linearRgbToRgb,
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

test('a grey under the light that is named becomes neutral', () => {
  // The camera took 5500 K for white and the light was 3200 K: what a grey card reads as, balanced as shot.
  const profile = { ...unknownProfile, asShotWhite: temperatureToXy(5500) };
  const asShot = balanceMatrix({ from: 'temperature', temperatureK: 5500, duv: 0 }, profile).matrix;
  const lamp = xyToXyz(temperatureToXy(3200));
  const back = balanceMatrix({ from: 'temperature', temperatureK: 3200, duv: 0 }, profile).matrix;
  const white = balanceMatrix(
    { from: 'temperature', temperatureK: 3200, duv: 0 },
    { ...unknownProfile, asShotWhite: temperatureToXy(3200) },
  ).matrix;
  expect(asShot[0]).toBeCloseTo(1, 9);
  expect(white[0]).toBeCloseTo(1, 9);
  // Undone by the inverse way: seen as shot, the lamp's white is orange, and the balance makes it grey again.
  const seen = solve(back, [1, 1, 1]);
  expect(seen[0]).toBeGreaterThan(seen[2] * 1.5);
  expect(lamp[0]).toBeGreaterThan(lamp[2]);
});

/** The light that a matrix turns into `wanted`, by a few rounds of Newton's method on a linear map. */
function solve(matrix: Parameters<typeof applyMatrix>[0], wanted: Vector3): Vector3 {
  let light: Vector3 = [1, 1, 1];
  for (let round = 0; round < 200; round++) {
    const [r, g, b] = applyMatrix(matrix, light);
    light = [light[0] + (wanted[0] - r) / 2, light[1] + (wanted[1] - g) / 2, light[2] + (wanted[2] - b) / 2];
  }
  return light;
}
