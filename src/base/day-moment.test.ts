import { expect, test } from 'vitest';
import { dayMoment, shutterLagMsMax } from './day-moment.ts';

test('the shutter places a frame, unless it lies after the first byte or half a day before it', () => {
  expect(dayMoment(1000, 1000)).toBe(1000);
  expect(dayMoment(0, shutterLagMsMax)).toBe(0);
  expect(dayMoment(0, shutterLagMsMax + 1)).toBe(shutterLagMsMax + 1);
  expect(dayMoment(1001, 1000)).toBe(1000);
});

test('where one is not known the other places it', () => {
  expect([dayMoment(null, 5), dayMoment(5, null), dayMoment(null, null)]).toEqual([5, 5, null]);
});
