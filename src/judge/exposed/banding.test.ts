import { expect, test } from 'vitest';
import { madeSet } from '../testing/made-set.ts';
import { readBanding } from './banding.ts';

const sets = Array.from({ length: 60 }, (_, seed) => seed);
/** Of the sets' half-size light, steps. */
const noise = 2;

// Drawn sets: what they hold is known, and there is not a stripe in them. What the strips of one ware share is its own.
test('of sixty sets without a stripe none is told to have one', () => {
  const told = sets.filter((seed) => readBanding(madeSet(seed), noise, null) !== null);
  expect(told).toEqual([]);
});

test('of thirty sets under a lamp that pulses by a third of a stop most are told so, with height and number', () => {
  const right = sets.slice(0, 30).filter((seed) => {
    const cycles = 5.5 + (seed % 14);
    const found = readBanding(madeSet(seed, { ev: 0.33, cycles }), noise, null);
    return found !== null && Math.abs(found.cycles - cycles) <= 0.5 && Math.abs(found.ev / 0.33 - 1) < 0.3;
  });
  expect(right.length).toBeGreaterThanOrEqual(24);
});

test('noise alone has no stripes, and a few over a blank wall are seen', () => {
  const wall = (ev: number, cycles: number): ReturnType<typeof madeSet> => {
    const { widthPx, heightPx } = madeSet(0);
    const data = Float32Array.from({ length: widthPx * heightPx }, (_, at) => {
      const y = Math.floor(at / widthPx) / heightPx;
      return 1000 * 2 ** ((ev / 2) * Math.sin(2 * Math.PI * cycles * y + 1)) + ((at * 7919) % 13);
    });
    return { widthPx, heightPx, data };
  };
  expect(readBanding(wall(0, 4), noise, null)).toBeNull();
  for (const cycles of [3.5, 4.25, 12]) {
    expect(readBanding(wall(0.2, cycles), noise, null)?.cycles).toBeCloseTo(cycles, 0);
  }
});
