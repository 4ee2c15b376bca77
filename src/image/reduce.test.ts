import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bin2x2 } from './bin.ts';
import { fitLongEdge, type RgbFloat } from './raster.ts';
import { areaReducer, reduceByArea } from './reduce.ts';

function noise(widthPx: number, heightPx: number, seed: number): RgbFloat {
  let state = seed;
  const data = Float32Array.from({ length: widthPx * heightPx * 3 }, () => {
    // Numerical Recipes' linear congruential generator: enough to have no pattern.
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  });
  return { data, widthPx, heightPx, channels: 3 };
}

/** The definition: the mean over the area a reduced pixel covers, counted by overlap. */
function meanOverArea(
  raster: RgbFloat,
  outWidth: number,
  outHeight: number,
  x: number,
  y: number,
  channel: number,
): number {
  const left = (x * raster.widthPx) / outWidth;
  const right = ((x + 1) * raster.widthPx) / outWidth;
  const top = (y * raster.heightPx) / outHeight;
  const bottom = ((y + 1) * raster.heightPx) / outHeight;
  let sum = 0;
  for (let row = 0; row < raster.heightPx; row++) {
    const tall = Math.max(0, Math.min(bottom, row + 1) - Math.max(top, row));
    for (let column = 0; column < raster.widthPx; column++) {
      const wide = Math.max(0, Math.min(right, column + 1) - Math.max(left, column));
      sum += tall * wide * (raster.data[(row * raster.widthPx + column) * 3 + channel] ?? 0);
    }
  }
  return sum / ((right - left) * (bottom - top));
}

const edge = fc.integer({ min: 1, max: 24 });

test('area averaging is the mean over the area, at any two sizes', () => {
  fc.assert(
    fc.property(edge, edge, edge, edge, fc.nat(), (w, h, ow, oh, seed) => {
      const raster = noise(Math.max(w, ow), Math.max(h, oh), seed);
      const reduced = reduceByArea(raster, { widthPx: ow, heightPx: oh });
      for (let y = 0; y < oh; y++) {
        for (let x = 0; x < ow; x++) {
          for (let channel = 0; channel < 3; channel++) {
            const expected = meanOverArea(raster, ow, oh, x, y, channel);
            expect(reduced.data[(y * ow + x) * 3 + channel]).toBeCloseTo(expected, 5);
          }
        }
      }
    }),
    { numRuns: 60 },
  );
});

test('a picture added strip by strip gives what it gives whole', () => {
  const raster = noise(37, 29, 7);
  const whole = reduceByArea(raster, { widthPx: 11, heightPx: 13 });
  const out = new Float32Array(11 * 13 * 3);
  const finished: number[] = [];
  const reducer = areaReducer(raster, { widthPx: 11, heightPx: 13 }, (line, row) => {
    out.set(line, row * 33);
    finished.push(row);
  });
  for (let row = 0; row < 29; row += 5) {
    const end = Math.min(29, row + 5);
    reducer(raster.data.subarray(row * 37 * 3, end * 37 * 3), end - row);
  }
  expect(out).toEqual(whole.data);
  expect(finished).toEqual(Array.from({ length: 13 }, (_, row) => row));
});

test('a 2x2 bin is the area average at half the edges, and drops an odd last row and column', () => {
  const raster = noise(14, 10, 3);
  const reduced = reduceByArea(raster, { widthPx: 7, heightPx: 5 });
  bin2x2(raster).data.forEach((value, index) => {
    expect(value).toBeCloseTo(reduced.data[index] ?? Number.NaN, 6);
  });
  expect(bin2x2(noise(5, 3, 1))).toMatchObject({ widthPx: 2, heightPx: 1 });
});

test('averaging never enlarges', () => {
  expect(() => reduceByArea(noise(4, 4, 1), { widthPx: 5, heightPx: 4 })).toThrow(RangeError);
});

test('a long edge keeps proportions, never enlarges, and never vanishes', () => {
  expect(fitLongEdge({ widthPx: 6000, heightPx: 4000 }, 1500)).toEqual({ widthPx: 1500, heightPx: 1000 });
  expect(fitLongEdge({ widthPx: 4000, heightPx: 6000 }, 1500)).toEqual({ widthPx: 1000, heightPx: 1500 });
  expect(fitLongEdge({ widthPx: 600, heightPx: 400 }, 1500)).toEqual({ widthPx: 600, heightPx: 400 });
  expect(fitLongEdge({ widthPx: 10_000, heightPx: 2 }, 100)).toEqual({ widthPx: 100, heightPx: 1 });
});
