import { expect, test } from 'vitest';
import { sheetStopAt, sheetStopPx } from './sheet-stop.ts';

// Hand derivation for a page of 844 px with a heading of 70 px: 70, 379.8 and 717.4 px.
test('a sheet rests where it is nearest to, and is gone once it is pulled below half of its heading', () => {
  expect(sheetStopPx('half', 844, 70)).toBeCloseTo(379.8, 6);
  expect(sheetStopAt(34, 844, 70)).toBe('gone');
  expect(sheetStopAt(36, 844, 70)).toBe('low');
  expect(sheetStopAt(224, 844, 70)).toBe('low');
  expect(sheetStopAt(226, 844, 70)).toBe('half');
  expect(sheetStopAt(548, 844, 70)).toBe('half');
  expect(sheetStopAt(549, 844, 70)).toBe('high');
});
