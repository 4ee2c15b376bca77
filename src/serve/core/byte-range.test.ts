import fc from 'fast-check';
import { expect, test } from 'vitest';
import { answerRange } from './byte-range.ts';

const part = (firstByte: number, lastByte: number): object => ({ kind: 'part', firstByte, lastByte });

test('the examples of RFC 9110 section 14.1.2 for a file of 10000 bytes', () => {
  expect(answerRange('bytes=0-499', 10_000)).toEqual(part(0, 499));
  expect(answerRange('bytes=500-999', 10_000)).toEqual(part(500, 999));
  expect(answerRange('bytes=-500', 10_000)).toEqual(part(9500, 9999));
  expect(answerRange('bytes=9500-', 10_000)).toEqual(part(9500, 9999));
  expect(answerRange('bytes=0-0', 10_000)).toEqual(part(0, 0));
  expect(answerRange('bytes=-1', 10_000)).toEqual(part(9999, 9999));
});

test('a last position at or past the end, and a suffix longer than the file, mean what there is (14.1.2)', () => {
  expect(answerRange('bytes=0-9999', 10_000)).toEqual(part(0, 9999));
  expect(answerRange('bytes=0-10000', 10_000)).toEqual(part(0, 9999));
  expect(answerRange('bytes=-10001', 10_000)).toEqual(part(0, 9999));
  expect(answerRange('bytes=9999-', 10_000)).toEqual(part(9999, 9999));
});

test('a range that holds no byte of the file cannot be satisfied (14.1.2, 15.5.17)', () => {
  for (const header of ['bytes=10000-', 'bytes=10000-10001', 'bytes=-0']) {
    expect(answerRange(header, 10_000), header).toEqual({ kind: 'unsatisfiable' });
  }
  expect(answerRange('bytes=0-', 0)).toEqual({ kind: 'unsatisfiable' });
  expect(answerRange('bytes=-5', 0)).toEqual({ kind: 'unsatisfiable' });
});

test('units are compared without case, and white space around the range is no matter (14.1, 5.6.1.2)', () => {
  expect(answerRange('Bytes=1-2', 10)).toEqual(part(1, 2));
  expect(answerRange('bytes= 1-2 ', 10)).toEqual(part(1, 2));
});

test('no header, another unit, bad grammar, last before first, and several ranges are answered with the whole (14.2)', () => {
  const ignored = [
    undefined,
    '',
    'bytes',
    'bytes=',
    'bytes=-',
    'bytes=a-b',
    'bytes=2-1',
    'bytes=1',
    'bytes=--1',
    'bytes=+1-2',
    'bytes=1-2-3',
    'lines=1-2',
    'bytes=0-1,4-5',
    `bytes=${'9'.repeat(17)}-`,
  ];
  for (const header of ignored) expect(answerRange(header, 10), header).toEqual({ kind: 'whole' });
});

test('whatever the header, a part lies inside the file and is not empty', () => {
  const header = fc.oneof(
    fc.string(),
    fc.tuple(fc.nat(), fc.nat()).map(([a, b]) => `bytes=${a}-${b}`),
    fc.nat().map((n) => `bytes=-${n}`),
    fc.nat().map((n) => `bytes=${n}-`),
  );
  fc.assert(
    fc.property(header, fc.nat(), (text, sizeBytes) => {
      const answer = answerRange(text, sizeBytes);
      if (answer.kind !== 'part') return;
      expect(answer.firstByte).toBeGreaterThanOrEqual(0);
      expect(answer.lastByte).toBeGreaterThanOrEqual(answer.firstByte);
      expect(answer.lastByte).toBeLessThan(sizeBytes);
    }),
  );
});
