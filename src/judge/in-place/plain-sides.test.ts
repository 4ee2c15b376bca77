import { expect, test } from 'vitest';
import type { Rgb8 } from '../../image/index.ts';
import { gaussian } from '../testing/made-light.ts';
import { plainSides } from './plain-sides.ts';

const [widthPx, heightPx] = [320, 240];

function made(value: (x: number, y: number) => number): Rgb8 {
  const data = new Uint8Array(widthPx * heightPx * 3);
  for (let at = 0; at < widthPx * heightPx; at++)
    data.fill(Math.round(value(at % widthPx, Math.floor(at / widthPx))), at * 3, at * 3 + 3);
  return { data, widthPx, heightPx, channels: 3 };
}

const every = { left: true, top: true, right: true, bottom: true };
const random = gaussian(7);

test.each([
  ['white', () => 252],
  ['paper on which light falls off a little', (x: number) => 240 - (14 * x) / widthPx],
  ['with noise of two codes', () => 230 + 2 * random()],
  [
    'with a thing in the middle',
    (x: number, y: number) => (x > 60 && x < 260 && y > 60 && y < 180 ? 40 : 245),
  ],
])('%s: every side is plain', (_, value) => {
  expect(plainSides(made(value))).toEqual(every);
});

test.each([
  [
    'a thing cut by the right edge',
    (x: number, y: number) => (x > 280 && y > 100 && y < 140 ? 60 : 245),
    'right',
  ],
  ['a cable over the left edge', (x: number, y: number) => (x < 30 && y > 115 && y < 122 ? 90 : 245), 'left'],
  [
    'a table’s texture below',
    (x: number, y: number) => (y > 220 && x > 40 && x < 280 ? 150 + 40 * ((x >> 2) % 2) : 245),
    'bottom',
  ],
])('%s: that side is not', (_, value, side) => {
  expect(plainSides(made(value))).toEqual({ ...every, [side]: false });
});

test('light that falls off strongly, along a side or towards it, does not go on beyond it', () => {
  // 60 codes over the width are 1.5 from the edge to as far in again, and 14 over the outer twentieth are 7.
  expect(plainSides(made((x) => 240 - (60 * x) / widthPx))).toEqual({ ...every, top: false, bottom: false });
  expect(plainSides(made((_, y) => (y < 16 ? 231 + (14 * y) / 16 : 245)))).toMatchObject({
    top: false,
    bottom: true,
  });
});

test('a horizon makes the sides that it crosses unsafe', () => {
  const sides = plainSides(made((_, y) => (y > 150 ? 120 : 245)));
  expect(sides).toEqual({ ...every, left: false, right: false });
});

test('a picture too small to be looked at has no plain side', () => {
  const tiny = {
    data: new Uint8Array(12 * 12 * 3).fill(255),
    widthPx: 12,
    heightPx: 12,
    channels: 3,
  } as const;
  expect(Object.values(plainSides(tiny)).some(Boolean)).toBe(false);
});
