import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nthSmallest } from './nth-smallest.ts';

// The judge is the platform's own sort.
test('the nth smallest of any values is the one that sorting puts there, equal ones and ends among them', () => {
  const value = fc.oneof(fc.integer({ min: 0, max: 5 }), fc.float({ noNaN: true, min: 0 }));
  fc.assert(
    fc.property(fc.array(value, { minLength: 1, maxLength: 300 }), fc.nat(), (list, seed) => {
      const at = seed % list.length;
      const sorted = Float32Array.from(list).sort();
      // What lies behind `count` plays no part.
      const values = Float32Array.of(...list, -1);
      expect(nthSmallest(values, list.length, at)).toBe(sorted[at]);
      expect(values.slice(0, list.length).sort()).toEqual(sorted);
    }),
  );
});

test('a place that is not there is refused', () => {
  expect(() => nthSmallest(new Float32Array(4), 0, 0)).toThrow(RangeError);
  expect(() => nthSmallest(new Float32Array(4), 4, 4)).toThrow(RangeError);
  expect(() => nthSmallest(new Float32Array(4), 5, 1)).toThrow(RangeError);
});
