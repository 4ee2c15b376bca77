import { expect, test } from 'vitest';
import { nextBetterEnd, type Preview, pickFirstView } from './preview.ts';

const preview = (widthPx: number | null, end: number, complete: boolean): Preview => ({
  offset: 0,
  length: end,
  widthPx,
  heightPx: widthPx === null ? null : Math.round(widthPx * 0.66),
  compression: 'jpeg',
  complete,
  colourSpace: null,
});

test('nothing complete gives no view, and the nearest end is awaited', () => {
  const previews = [preview(160, 100, false), preview(1600, 900, false)];
  expect(pickFirstView(previews)).toBeNull();
  expect(nextBetterEnd(previews)).toBe(100);
});

test('a small one serves until one of 1000 px or more is there, and a larger one replaces that', () => {
  const small = preview(160, 100, true);
  const first = preview(1600, 900, true);
  const full = preview(6000, 9000, true);
  const waiting = (p: Preview): Preview => ({ ...p, complete: false });
  expect(pickFirstView([small, waiting(first), waiting(full)])).toBe(small);
  expect(nextBetterEnd([small, waiting(first), waiting(full)])).toBe(900);
  expect(pickFirstView([small, first, waiting(full)])).toBe(first);
  expect(nextBetterEnd([small, first, waiting(full)])).toBe(9000);
  expect(pickFirstView([small, first, full])).toBe(full);
  expect(nextBetterEnd([small, first, full])).toBeNull();
});

test('a smaller one that ends later is not awaited', () => {
  expect(nextBetterEnd([preview(5952, 100, true), preview(1440, 900, false)])).toBeNull();
});

test('one of unknown size may be better and is awaited, but never shown', () => {
  expect(nextBetterEnd([preview(160, 100, true), preview(null, 900, false)])).toBe(900);
  expect(pickFirstView([preview(null, 900, true)])).toBeNull();
});

test('an upright picture counts by its longer edge', () => {
  const upright: Preview = { ...preview(800, 10, true), heightPx: 1200 };
  expect(pickFirstView([preview(1000, 10, true), upright])).toBe(upright);
});
