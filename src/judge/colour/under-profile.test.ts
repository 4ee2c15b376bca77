import { expect, test } from 'vitest';
import { type Matrix3, multiplyMatrices, rgbSpaces } from '../../colour/index.ts';
import type { Mosaic, TargetReading } from '../../facts/index.ts';
import { type MadeTarget, madeTargetPicture } from '../testing/made-target.ts';
import { mosaicOfPicture } from '../testing/made-target-mosaic.ts';
import { readColourMosaic } from './read-colour.ts';
import { underProfile } from './under-profile.ts';

const target: MadeTarget = {
  centre: [120, 95],
  widthPx: 170,
  rotationDegrees: 14,
  tiltDegrees: 15,
  edition: 'from-november-2014',
};
const picture = madeTargetPicture({ widthPx: 240, heightPx: 190, targets: [target] });
const fromSrgb: Matrix3 = [0.7, 0.25, 0.05, 0.12, 0.8, 0.08, 0.02, 0.28, 0.7];
/** What the file says of the camera is wrong: its own balance and matrix leave colours far off. */
const wrong: Matrix3 = multiplyMatrices(
  [0.8, 0.1, 0.1, 0.2, 0.7, 0.1, 0.1, 0.1, 0.8],
  rgbSpaces.srgb.fromXyz,
);

function readBalanced(multipliers: readonly [number, number, number]): TargetReading {
  const camera = { fromSrgb, exposure: 0.5, multipliers: [2, 1, 1.5], xyzToCamera: wrong, noise: 6 } as const;
  const mosaic: Mosaic = { ...mosaicOfPicture(picture, camera), asShotMultipliers: multipliers };
  const reading = readColourMosaic(mosaic, { edition: 'from-november-2014' });
  if (!reading.found) throw new Error(`no target: ${reading.why}`);
  return reading;
}

test('under the profile of another frame a wrong balance and a wrong matrix have no part in what is told', () => {
  const first = readBalanced([2, 1, 1.5]);
  const { profile } = first;
  if (profile === null) throw new Error('a profile can be made of it');
  // Balanced as for another lamp, as a camera left on the wrong setting does it.
  const second = readBalanced([1.2, 1, 2.4]);
  expect(second.colour?.mean).toBeGreaterThan(8);
  const told = underProfile(second, [1.2, 1, 2.4], profile);
  // The same light: what is left is what the profile leaves on the patches it was made from, and noise.
  expect(Math.abs((told?.colour?.mean ?? 99) - profile.fit.mean)).toBeLessThan(0.3);
  expect(Math.abs(told?.greys?.duv ?? 1)).toBeLessThan(0.001);
  expect(underProfile(second, [1.2, 1, 2.4], { ...profile, multipliers: null })).toBeNull();
});
