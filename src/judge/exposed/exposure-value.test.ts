import { expect, test } from 'vitest';
import { exposureValue, exposureValue100, settingsStops } from './exposure-value.ts';

/** Printed tables, see test/vectors/exposure/exposure-series.json: photographycourses.net.au, optyczne.pl; the definition. */
test.each([
  [16, 1 / 125, 15],
  [8, 1 / 500, 15],
  [22, 1 / 60, 15],
  [8, 1 / 60, 12],
  [11, 1 / 30, 12],
  [1, 1, 0],
])('f/%d at %d s is EV %d', (fNumber, seconds, ev) => {
  expect(Math.round(exposureValue(fNumber, seconds))).toBe(ev);
  expect(exposureValue100(fNumber, seconds, 400)).toBeCloseTo(exposureValue(fNumber, seconds) - 2, 12);
});

test('settings that differ by the rounding of what is engraved are equal', () => {
  const base = { exposureTimeS: 1 / 125, fNumber: 8, sensitivity: 100 };
  expect(settingsStops(base, { ...base, exposureTimeS: 1 / 128 })).toBe(0);
  expect(settingsStops({ ...base, sensitivity: 400 }, base)).toBeCloseTo(2, 12);
  expect(settingsStops({ ...base, fNumber: 11.314 }, base)).toBeCloseTo(-1, 3);
  expect(settingsStops({ fNumber: 8 }, base)).toBeNull();
  expect(settingsStops(null, base)).toBeNull();
});
