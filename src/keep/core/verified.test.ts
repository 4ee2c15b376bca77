import { expect, test } from 'vitest';
import { parseVerified, type Verified, verifiedText } from './verified.ts';

const verified: Verified = {
  beganMs: 1_790_000_000_000,
  originals: [{ arrival: 'a1', trouble: 'differs' }],
  places: [{ place: 'p1', seq: 12, bad: ['a2'], journalIsBad: true }],
};

test('what was left is read as it was written', () => {
  expect(parseVerified(verifiedText(verified))).toEqual(verified);
});

test('what is something else, damaged or of another version is not believed in part', () => {
  const text = verifiedText(verified);
  const others = [
    '',
    '[]',
    'null',
    text.slice(0, -3),
    text.replace('"version":1', '"version":2').replace('"version": 1', '"version": 2'),
    text.replace('differs', 'lost'),
    text.replace('"a2"', '"../a2"'),
    text.replace('12', '-1'),
    text.replace('"p1"', '7'),
  ];
  for (const other of others) {
    expect(other).not.toBe(text);
    expect(parseVerified(other), other).toBeNull();
  }
});
