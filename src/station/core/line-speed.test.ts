import { expect, test } from 'vitest';
import { bytesPerSecond, noSpeed, withProgress } from './line-speed.ts';

const after = (points: readonly [number, number][]) =>
  points.reduce((speed, [atMs, bytes]) => withProgress(speed, atMs, bytes), noSpeed);

test('a steady line has its own speed', () => {
  expect(
    bytesPerSecond(
      after([
        [0, 0],
        [1000, 4_000_000],
        [2000, 8_000_000],
      ]),
    ),
  ).toBe(4_000_000);
});

test('what was more than three seconds ago no longer counts', () => {
  expect(
    bytesPerSecond(
      after([
        [0, 0],
        [1000, 9_000_000],
        [4000, 9_000_000],
        [4500, 9_000_000],
      ]),
    ),
  ).toBe(0);
});

test('nothing is said from one point or from two at one moment', () => {
  expect(bytesPerSecond(noSpeed)).toBeNull();
  expect(bytesPerSecond(after([[5, 100]]))).toBeNull();
  expect(
    bytesPerSecond(
      after([
        [5, 100],
        [5, 200],
      ]),
    ),
  ).toBeNull();
});

test('after a long silence the two last points still give a speed', () => {
  expect(
    bytesPerSecond(
      after([
        [0, 0],
        [60_000, 60_000],
      ]),
    ),
  ).toBe(1000);
});
