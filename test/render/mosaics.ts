import fc from 'fast-check';
import type { Mosaic } from '../../src/facts/index.ts';

const patterns = [
  [0, 1, 1, 2],
  [2, 1, 1, 0],
  [1, 0, 2, 1],
  [1, 2, 0, 1],
] as const;

/** Small mosaics of every pattern, odd sizes and unequal black levels among them, with plenty of saturated pixels. */
export const mosaics: fc.Arbitrary<Mosaic> = fc
  .record({
    widthPx: fc.integer({ min: 2, max: 41 }),
    heightPx: fc.integer({ min: 2, max: 41 }),
    filters: fc.constantFrom(...patterns),
    black: fc.tuple(fc.nat(600), fc.nat(600), fc.nat(600), fc.nat(600)),
    red: fc.double({ min: 0.4, max: 3, noNaN: true }),
    blue: fc.double({ min: 0.4, max: 3, noNaN: true }),
    seed: fc.nat(),
  })
  .map(({ widthPx, heightPx, filters, black, red, blue, seed }): Mosaic => {
    let state = seed;
    const values = Uint16Array.from({ length: widthPx * heightPx }, () => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      // A third at or near saturation, so that every branch of the highlights is taken.
      return state % 3 === 0 ? 14_000 + (state >>> 20) / 2 : state >>> 18;
    });
    return {
      values,
      widthPx,
      heightPx,
      filters,
      blackLevels: black,
      whiteLevel: 15_800,
      asShotMultipliers: [red, 1, blue],
      xyzToCamera: null,
      orientation: 1,
      baselineExposureEv: 0,
    };
  });
