import { expect, test } from 'vitest';
import { depthOf } from './depth-of.ts';

test('on 24 x 36 mm the circle is that of the table, on half the format half of it, and the limits lie about the distance', () => {
  const { missing, field } = depthOf({
    focalLengthMm: 50,
    focalLength35Mm: 50,
    fNumber: 8,
    subjectDistanceM: 3,
  });
  expect(missing).toEqual([]);
  // Circle of 0.03 mm on 24 x 36 mm, near and far of this row: the table in optics-handbook.json.
  expect(field?.circleMm).toBeCloseTo(0.03, 9);
  expect(field?.nearMm).toBeCloseTo(2337.91, 1);
  expect(field?.farMm).toBeCloseTo(4185.27, 1);
  const half = { focalLengthMm: 25, focalLength35Mm: 50, fNumber: 8, subjectDistanceM: 3 };
  expect(depthOf(half).field?.circleMm).toBeCloseTo(0.015, 9);
  expect(field?.withDiffraction?.nearMm).toBeGreaterThan(field?.nearMm ?? 0);
});

test('what the camera did not say is named, and nothing is guessed in its place', () => {
  expect(depthOf(null)).toEqual({ missing: ['focal', 'aperture', 'distance', 'format'], field: null });
  const close = depthOf({ focalLengthMm: 100, focalLength35Mm: 100, fNumber: 8, subjectDistanceM: 0.08 });
  expect(close).toEqual({ missing: ['distance'], field: null });
});
