import { expect, test } from 'vitest';
import { lensDescription, lensStepsOf } from './lens-description.ts';

function stepsOf(description: unknown): ReturnType<typeof lensStepsOf> {
  return lensStepsOf(lensDescription.parse(description));
}

test('a description that changes nothing means no steps', () => {
  expect(stepsOf({})).toEqual([]);
  expect(stepsOf({ radial: [1, 0, 0, 0], tangential: [0, 0], red: [1, 0, 0, 0] })).toEqual([]);
});

test('radial coefficients are those of even powers, one way for all colours (WarpRectilinear, DNG 1.7.1, chapter 7)', () => {
  expect(stepsOf({ radial: [1, -0.1, 0.02, 0], tangential: [0.001, 0] })).toEqual([
    {
      kind: 'warp',
      centre: [0.5, 0.5],
      planes: [
        {
          radial: [1, 0, -0.1, 0, 0.02, 0, 0, 0, 0, 0, 0, 0, 0],
          tangential: [0.001, 0],
          range: [0, Number.POSITIVE_INFINITY],
          isReciprocal: false,
        },
      ],
    },
  ]);
});

test('red and blue have a factor more, falloff comes first', () => {
  const [gain, warp] = stepsOf({
    radial: [1, 0.5, 0, 0],
    red: [1.001, 0.002, 0, 0],
    falloff: [0.3, 0, 0, 0, 0],
    centre: [0.4, 0.6],
  });
  expect(gain).toEqual({ kind: 'radial-gain', k: [0.3, 0, 0, 0, 0], centre: [0.4, 0.6] });
  if (warp?.kind !== 'warp') throw new Error('no warp');
  // (1 + 0.5 s)(1.001 + 0.002 s) = 1.001 + 0.5025 s + 0.001 s^2, s = r^2.
  const [red, green, blue] = warp.planes.map(({ radial }) => [radial[0], radial[2], radial[4]]);
  [1.001, 0.5025, 0.001].forEach((value, index) => {
    expect(red?.[index]).toBeCloseTo(value, 12);
  });
  expect(green).toEqual([1, 0.5, 0]);
  expect(blue).toEqual(green);
});

test.each([
  ['an unknown member', { zoom: 2 }],
  ['too few coefficients', { radial: [1, 0] }],
  ['a factor that turns the picture inside out', { radial: [-1, 0, 0, 0] }],
  ['a coefficient beyond any lens', { radial: [1, 50, 0, 0] }],
  ['a centre outside', { centre: [2, 0.5] }],
])('%s is refused', (_, description) => {
  expect(lensDescription.safeParse(description).success).toBe(false);
});
