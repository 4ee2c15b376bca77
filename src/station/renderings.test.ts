import { expect, test } from 'vitest';
import { renderingEdition } from '../develop/index.ts';
import { longEdgeFor, treatmentKey } from './renderings.ts';

const landscape = { width: 6000, height: 4000 };
const portrait = { width: 4000, height: 6000 };

test('a wish is rounded up to a step, and a portrait’s long edge is its height', () => {
  expect(longEdgeFor(640, landscape, 'raw')).toBe(640);
  expect(longEdgeFor(641, landscape, 'raw')).toBe(704);
  expect(longEdgeFor(640, portrait, 'raw')).toBe(960);
});

test('a wish for all there is or more is answered with the base, of which no copy is made', () => {
  // A raw is rendered at half its size, a finished picture at 4096 pixels at most.
  expect([2944, 2945, 3000, 16_384].map((width) => longEdgeFor(width, landscape, 'raw'))).toEqual([
    2944,
    null,
    null,
    null,
  ]);
  expect([4032, 4033, 16_384].map((width) => longEdgeFor(width, landscape, 'raster'))).toEqual([
    4032,
    null,
    null,
  ]);
  expect(longEdgeFor(1000, { width: 800, height: 600 }, 'raster')).toBeNull();
});

test('a rendering bears the edition of what made it, so that an older one is not taken for it', () => {
  expect(treatmentKey({ lookHash: 'ab'.repeat(32), balanceHash: '' })).toBe(
    `${renderingEdition}-abababababababab`,
  );
  expect(treatmentKey({ lookHash: '', balanceHash: 'cd'.repeat(32) })).toBe(
    `${renderingEdition}-as-is-cdcdcdcdcdcdcdcd`,
  );
});
