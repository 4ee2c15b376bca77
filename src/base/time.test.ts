import fc from 'fast-check';
import { expect, test } from 'vitest';
import { civilToEpochMs, epochMsToRfc3339 } from './time.ts';

test('the epoch and a leap day read as the platform reads them', () => {
  expect(epochMsToRfc3339(0)).toBe('1970-01-01T00:00:00.000Z');
  expect(epochMsToRfc3339(Date.UTC(2024, 1, 29, 23, 59, 59, 7))).toBe('2024-02-29T23:59:59.007Z');
});

test('any moment from 1900 to 2200 agrees with the platform (ECMAScript toISOString) and comes back', () => {
  fc.assert(
    fc.property(fc.integer({ min: Date.UTC(1900, 0), max: Date.UTC(2200, 0) }), (moment) => {
      expect(epochMsToRfc3339(moment)).toBe(new Date(moment).toISOString());
      const date = new Date(moment);
      expect(
        civilToEpochMs({
          year: date.getUTCFullYear(),
          month: date.getUTCMonth() + 1,
          day: date.getUTCDate(),
          hours: date.getUTCHours(),
          minutes: date.getUTCMinutes(),
          seconds: date.getUTCSeconds(),
          ms: date.getUTCMilliseconds(),
        }),
      ).toBe(moment);
    }),
  );
});
