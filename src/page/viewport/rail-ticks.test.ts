import { expect, test } from 'vitest';
import { ticksOf } from './rail-ticks.ts';

const stretch = { fromMs: 3_000, toMs: 33_000, fromCssPx: 100, toCssPx: 340 };

test('at 8 pixels per second every fifth second has a tick and every tenth a label', () => {
  const ticks = ticksOf(stretch, 8);
  expect(ticks.map((tick) => tick.momentMs / 1000)).toEqual([3, 5, 10, 15, 20, 25, 30]);
  expect(ticks.filter((tick) => tick.labelled).map((tick) => tick.momentMs / 1000)).toEqual([3, 10, 20, 30]);
  expect(ticks.find((tick) => tick.momentMs === 10_000)?.atCssPx).toBe(156);
});

test('a label that would touch the first one is left out', () => {
  const close = ticksOf({ ...stretch, fromMs: 9_000 }, 8);
  expect(close.filter((tick) => tick.labelled).map((tick) => tick.momentMs / 1000)).toEqual([9, 20, 30]);
});

test('a single moment is labelled too', () => {
  const ticks = ticksOf({ fromMs: 7_123, toMs: 7_123, fromCssPx: 5, toCssPx: 5 }, 8);
  expect(ticks).toEqual([{ momentMs: 7_123, atCssPx: 5, labelled: true }]);
});
