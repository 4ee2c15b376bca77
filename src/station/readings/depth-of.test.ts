import { expect, test } from 'vitest';
import { depthOf } from './depth-of.ts';

test('on 24 x 36 mm the circle is the diagonal by 1500, and the limits lie about the distance', () => {
  const { missing, field } = depthOf({
    focalLengthMm: 50,
    focalLength35Mm: 50,
    fNumber: 8,
    subjectDistanceM: 2,
  });
  expect(missing).toEqual([]);
  // √(24² + 36²) = 43.27 mm by 1500.
  expect(field?.circleMm).toBeCloseTo(0.02884, 4);
  // H = f² / (N c) + f = 10 885 mm; s (H - f) / (H + s - 2 f) = 1696, s (H - f) / (H - s) = 2439 (from the formula, by hand).
  expect(Math.abs((field?.nearMm ?? 0) - 1696)).toBeLessThan(2);
  expect(Math.abs((field?.farMm ?? 0) - 2439)).toBeLessThan(2);
  expect(field?.withDiffraction?.nearMm).toBeGreaterThan(field?.nearMm ?? 0);
});

test('what the camera did not say is named, and nothing is guessed in its place', () => {
  expect(depthOf(null)).toEqual({ missing: ['focal', 'aperture', 'distance', 'format'], field: null });
  const close = depthOf({ focalLengthMm: 100, focalLength35Mm: 100, fNumber: 8, subjectDistanceM: 0.08 });
  expect(close).toEqual({ missing: ['distance'], field: null });
});
