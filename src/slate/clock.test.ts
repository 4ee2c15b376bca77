import fc from 'fast-check';
import { expect, test } from 'vitest';
import { measureClock } from './clock.ts';

const noonMs = Date.UTC(2026, 9, 1, 12);

test('a camera that is 2.4 s ahead is to be put back by 2.4 s, within what the code and Exif leave open', () => {
  const slate = { kind: 'clock', atMs: noonMs, refreshMs: 200, unsureMs: 0 } as const;
  const shutter = { atMs: noonMs + 100 + 2400, offsetKnown: true, subSecondsKnown: true };
  const reading = measureClock(slate, { shutter, exposureTimeS: 1 / 125 });
  expect(Math.abs((reading?.offsetMs ?? 0) + 2400)).toBeLessThanOrEqual(reading?.plusMinusMs ?? 0);
  // By hand: code 200 ms, screen 50 ms, exposure 8 ms, sub-seconds of 10 ms: half of 268.
  expect(reading?.plusMinusMs).toBe(134);
});

test('without sub-seconds the second is not known better than by half', () => {
  const slate = { kind: 'clock', atMs: noonMs, refreshMs: 200, unsureMs: 0 } as const;
  const shutter = { atMs: noonMs, offsetKnown: true, subSecondsKnown: false };
  expect(measureClock(slate, { shutter })?.plusMinusMs).toBe(625);
});

test('a camera that told no time is not measured', () => {
  expect(measureClock({ kind: 'clock', atMs: noonMs, refreshMs: 200, unsureMs: 0 }, {})).toBeNull();
});

/** The truth is made here, moment by moment, and never asked of the code under test. */
test('the truth lies within what is said, whenever the shutter fired and however wrong the clocks are', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -5_000_000, max: 5_000_000 }),
      fc.integer({ min: 20, max: 500 }),
      fc.double({ min: 0, max: 0.999, noNaN: true }),
      fc.integer({ min: 0, max: 50 }),
      fc.integer({ min: -30, max: 30 }),
      fc.boolean(),
      (aheadMs, refreshMs, share, lagMs, showsWrongMs, subSecondsKnown) => {
        const openedMs = noonMs + 12_345;
        const drawnMs = openedMs - lagMs - share * refreshMs + showsWrongMs;
        const clockMs = openedMs + aheadMs;
        const stepMs = subSecondsKnown ? 10 : 1000;
        const shutter = {
          atMs: Math.floor(clockMs / stepMs) * stepMs,
          offsetKnown: true,
          subSecondsKnown,
        };
        const slate = { kind: 'clock', atMs: Math.round(drawnMs), refreshMs, unsureMs: 30 } as const;
        const reading = measureClock(slate, { shutter, exposureTimeS: 1 / 60 });
        if (reading === null) throw new Error('expected a reading');
        // A millisecond for the rounding of the code's time and of both figures.
        expect(Math.abs(reading.offsetMs + aheadMs)).toBeLessThanOrEqual(reading.plusMinusMs + 1);
      },
    ),
  );
});
