import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import { type SheetStep, stepOnSheet } from './sheet-steps.ts';

/** Three columns: abc/de, then nothing, then f/g…: rows drawn by hand beside each check. */
const groups = ['abcde', '', 'fghi'].map((ids) => ({
  frames: [...ids].map((id, index) => sampleFrame(id, index)),
}));
const from = (id: string | null, step: SheetStep): string | null => stepOnSheet(groups, 3, id, step);

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
  expect(stepOnSheet([], 3, null, 'right')).toBeNull();
});
