import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import type { SheetMeasures } from '../viewport/index.ts';
import { type SheetStep, stepOnSheet } from './sheet-steps.ts';

const measures: SheetMeasures = {
  ...{ columns: 3, cellWidth: 100, cellHeight: 90, gap: 10 },
  ...{ headHeight: 40, noteLineHeight: 20, edge: 20, between: 30, heroSpan: 2 },
};
const framesOf = (ids: string) => [...ids].map((id, index) => sampleFrame(id, index));
const groupOf = (frames: string, heroes = '', selects = '') => ({
  frames: framesOf(frames),
  heroes: framesOf(heroes),
  selects: framesOf(selects),
  shotless: new Map(),
});
/** Three columns: abc/de, then nothing, then f/g…: rows drawn by hand beside each check. */
const groups = [groupOf('abcde'), groupOf(''), groupOf('fghi')];
const from = (id: string | null, step: SheetStep): string | null =>
  stepOnSheet(groups, measures, id === null ? null : { id, chosen: false }, step)?.id ?? null;

test('left and right go over the ends of rows and shots, and stop at the ends of the sheet', () => {
  expect([from('c', 'right'), from('e', 'right'), from('f', 'left')]).toEqual(['d', 'f', 'e']);
  expect([from('a', 'left'), from('i', 'right')]).toEqual([null, null]);
});

test('up and down keep the column, also into the next shot with frames', () => {
  // a b c   f g h
  // d e     i
  expect([from('a', 'down'), from('b', 'down'), from('d', 'down'), from('e', 'down')]).toEqual([
    'd',
    'e',
    'f',
    'g',
  ]);
  expect([from('d', 'up'), from('g', 'up'), from('h', 'up')]).toEqual(['a', 'e', 'e']);
});

test('down from above the gap of a short row leads to its end', () => {
  expect([from('c', 'down'), from('h', 'down'), from('i', 'down')]).toEqual(['e', 'i', null]);
});

test('from nowhere, or from a frame that is gone, every step leads to the first', () => {
  expect([from(null, 'down'), from('x', 'left'), from('x', 'last')]).toEqual(['a', 'a', 'i']);
  expect(stepOnSheet([], measures, null, 'right')).toBeNull();
});

test('the chosen ones above are on the way, as they lie there: a hero, selects beside it, then all as they were taken', () => {
  // A A x   Above, large, is the hero d; beside it the selects b and e.
  // A A y
  // a b c
  // d e
  const chosen = [groupOf('abcde', 'd', 'be'), groupOf('f')];
  const way = (id: string, isChosen: boolean, ...steps: SheetStep[]): string => {
    const end = steps.reduce<{ id: string; chosen: boolean } | null>(
      (at, step) => (at === null ? null : stepOnSheet(chosen, measures, at, step)),
      { id, chosen: isChosen },
    );
    return end === null ? '' : `${end.id}${end.chosen ? ' above' : ''}`;
  };
  expect([way('a', false, 'up'), way('c', false, 'up'), way('c', false, 'up', 'up')]).toEqual([
    'd above',
    'e above',
    'b above',
  ]);
  expect([way('d', true, 'down'), way('e', true, 'down'), way('b', true, 'down')]).toEqual([
    'a',
    'c',
    'e above',
  ]);
  expect([way('d', true, 'right'), way('e', true, 'right'), way('a', false, 'left')]).toEqual([
    'b above',
    'a',
    'e above',
  ]);
  expect([way('d', true, 'up'), way('d', true, 'left'), way('f', false, 'up')]).toEqual(['', '', 'd']);
  // One that is chosen no longer is where it was taken.
  expect(way('c', true, 'left')).toBe('b');
});
