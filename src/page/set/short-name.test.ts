import { expect, test } from 'vitest';
import { shortName } from './short-name.ts';

const named = (name: string, counter: number | null = null) => ({ name, counter });

test('where there is room for a few digits a frame is its counter', () => {
  expect(shortName(named('QMST0041.DNG', 41), { counterDigits: 4, nameLetters: 7 })).toBe('0041');
  expect(shortName(named('QMST0041.DNG', 41), { counterDigits: 2, nameLetters: 1 })).toBe('41');
  expect(shortName(named('QMST0041.DNG', 41), { counterDigits: null, nameLetters: 13 })).toBe('QMST0041');
});

test('a long name without a counter keeps its end, and says that something is left out', () => {
  const long = named('glaze-close-12.tif');
  expect(shortName(long, { counterDigits: null, nameLetters: 13 })).toBe('gl…e-close-12');
  expect(shortName(long, { counterDigits: 4, nameLetters: 7 })).toBe('gl…e-12');
  expect(shortName(named('NOTES.TXT'), { counterDigits: 4, nameLetters: 7 })).toBe('NOTES');
});

test('in a burst it is the number, or the last letters behind a mark', () => {
  expect(shortName(named('tall-12.JPG'), { counterDigits: 4, nameLetters: 3 })).toBe('12');
  expect(shortName(named('LONG.BIN'), { counterDigits: 4, nameLetters: 3 })).toBe('…NG');
  expect(shortName(named('.hidden.jpg'), { counterDigits: 2, nameLetters: 1 })).toBe('n');
});
