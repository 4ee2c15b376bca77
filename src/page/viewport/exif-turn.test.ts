import { expect, test } from 'vitest';
import type { Orientation } from '../../facts/index.ts';
import { composed, liesOnItsSide, storedToUpright } from './exif-turn.ts';

/**
 * Exif 2.32, tag 0x0112: the visual side on which the raster's row 0 and column 0 lie, by value.
 */
const sides: readonly (readonly [Orientation, row0: string, column0: string])[] = [
  [1, 'top', 'left'],
  [2, 'top', 'right'],
  [3, 'bottom', 'right'],
  [4, 'bottom', 'left'],
  [5, 'left', 'top'],
  [6, 'right', 'top'],
  [7, 'right', 'bottom'],
  [8, 'left', 'bottom'],
];

const width = 30;
const height = 20;

function upright(orientation: Orientation, x: number, y: number): { x: number; y: number } {
  const m = storedToUpright(orientation, width, height);
  return { x: m.a * x + m.c * y + m.e, y: m.b * x + m.d * y + m.f };
}

/** The side of the upright picture that both ends of an edge of the raster lie on. */
function sideOf(orientation: Orientation, from: readonly [number, number], to: readonly [number, number]) {
  const [w, h] = liesOnItsSide(orientation) ? [height, width] : [width, height];
  const one = upright(orientation, ...from);
  const two = upright(orientation, ...to);
  if (one.x === two.x) return one.x === 0 ? 'left' : one.x === w ? 'right' : 'inside';
  return one.y === 0 ? 'top' : one.y === h ? 'bottom' : 'inside';
}

test.each(sides)(
  'orientation %i puts row 0 at the %s and column 0 at the %s (Exif 2.32)',
  (value, row0, column0) => {
    expect(sideOf(value, [0, 0], [width, 0])).toBe(row0);
    expect(sideOf(value, [0, 0], [0, height])).toBe(column0);
  },
);

test('two maps one after the other are one map', () => {
  const turn = storedToUpright(6, width, height);
  const half = { a: 0.5, b: 0, c: 0, d: 0.5, e: 3, f: 4 };
  const both = composed(turn, half);
  const point = upright(6, 7, 9);
  expect(both.a * 7 + both.c * 9 + both.e).toBeCloseTo(point.x / 2 + 3, 12);
  expect(both.b * 7 + both.d * 9 + both.f).toBeCloseTo(point.y / 2 + 4, 12);
});
