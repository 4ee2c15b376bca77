import { expect, test } from 'vitest';
import { bitsOf, logOfBits } from './fast-log.ts';
import { logLight } from './log-light.ts';
import { normalTable, placeOf } from './normal-table.ts';

test('log2 by bits lies within 1e-7 of the library, over 60 octaves', () => {
  let worst = 0;
  for (let stops = -30; stops < 30; stops += 0.0137) {
    const value = Float32Array.of(2 ** stops);
    worst = Math.max(worst, Math.abs(logOfBits(bitsOf(value)[0] ?? 0) - Math.log2(value[0] ?? 0)));
  }
  expect(worst).toBeLessThan(1e-7);
});

test('what is no number, or without end, stays so', () => {
  const out = new Float32Array(4);
  logLight(Float32Array.of(Number.NaN, Number.POSITIVE_INFINITY, -5, 7), 1, out);
  expect([...out]).toEqual([Number.NaN, Number.POSITIVE_INFINITY, 0, 3]);
});

// Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1.
test.each([
  [0.5, 0.6914624612740131],
  [1, 0.8413447460685429],
  [2, 0.9772498680518208],
  [3, 0.9986501019683699],
  [-2, 0.0227501319481792],
])('the share below %d deviations is that of the printed table', (t, share) => {
  const place = placeOf(t);
  const [known = 0, gauss = 0, at = 0] = normalTable.subarray(place, place + 3);
  const step = t - at;
  const near =
    (gauss / Math.sqrt(2 * Math.PI)) * step * (1 - (at * step) / 2 + ((at * at - 1) * step * step) / 6);
  expect(known + near).toBeCloseTo(share, 9);
  expect([placeOf(-9), placeOf(9), placeOf(Number.NaN)]).toEqual([-1, -2, -1]);
});
