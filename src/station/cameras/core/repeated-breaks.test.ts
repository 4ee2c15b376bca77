import { expect, test } from 'vitest';
import { sentence } from '../../../words/index.ts';
import { RepeatedBreaks, timesWorthAWord } from './repeated-breaks.ts';

const line = (code: string, name: string) => ({
  code: `line.upload-${code}`,
  args: { name, bytes: 1000, why: 'reset' },
});

test('from the third time on it is said how often a file broke off, until it is kept', () => {
  const breaks = new RepeatedBreaks();
  const times = (code: string, name: string): unknown => breaks.noted(line(code, name)).args.times;
  expect(timesWorthAWord).toBe(3);
  expect([1, 2, 3, 4].map(() => times('broken-off', 'A'))).toEqual([undefined, undefined, 3, 4]);
  expect(times('broken-off', 'B')).toBeUndefined();
  expect(times('kept', 'A')).toBeUndefined();
  expect([1, 2, 3].map(() => times('broken-off', 'A'))).toEqual([undefined, undefined, 3]);
  expect(times('kept-damaged', 'A')).toBeUndefined();
  expect(times('broken-off', 'A')).toBeUndefined();
  expect(sentence({ code: 'line.upload-broken-off', args: { ...line('', 'A').args, times: 3 } })).toBe(
    'A broke off after 1 kB: the data connection broke. It has broken off 3 times now. Look at the line between camera and station, or take the file from the card.',
  );
});

test('files of one name in two folders of a camera are two', () => {
  const breaks = new RepeatedBreaks();
  const times = (path: string): unknown =>
    breaks.noted({ code: 'line.upload-broken-off', args: { ...line('', 'A').args, path } }).args.times;
  expect(['/100X/A', '/101X/A', '/100X/A', '/101X/A'].map(times)).toEqual(Array(4).fill(undefined));
  expect(times('/100X/A')).toBe(3);
});

test('a camera that breaks off ever other names is remembered for the newest only', () => {
  const breaks = new RepeatedBreaks();
  const twice = (name: string): void => void [1, 2].map(() => breaks.noted(line('broken-off', name)));
  twice('first');
  for (let at = 0; at < 199; at += 1) twice(`other ${at}`);
  expect(breaks.noted(line('broken-off', 'first')).args.times).toBe(3);
  twice('one more');
  expect(breaks.noted(line('broken-off', 'other 0')).args.times).toBeUndefined();
  expect(breaks.noted(line('broken-off', 'first')).args.times).toBe(4);
});
