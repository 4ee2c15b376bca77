import { expect, test } from 'vitest';
import type { CardFile, CardReport } from '../../keep/index.ts';
import { cardOutcome, lastOf } from './card-outcome.ts';

function file(path: string, more: Partial<CardFile> = {}): CardFile {
  const nothing = { sizeBytes: 10, sha256: null, original: null, copies: [], findings: [] };
  return { path, state: 'safe', camera: 'cam1', ...nothing, ...more };
}

function report(files: readonly CardFile[], safe: boolean): CardReport {
  return { folder: '/card', files, bytes: 10 * files.length, passedOver: [], findings: [], safe };
}

// CIPA DC-009 (DCF 2.0) 3.3.1: file numbers run from 0001 to 9999; after 9999 comes 0001.
test.each([
  [[7], 7],
  [[1, 2, 3], 3],
  [[3, 1, 2], 3],
  [[9998, 9999, 1, 2], 2],
  [[9998, 9999], 9999],
  [[4001, 4002, 12], 4002],
])('the last of the numbers %j is %i, counting on from 9999 to 1', (numbers, last) => {
  expect(lastOf(numbers)).toBe(last);
});

test('the journal is told how many files are what, and the last number of each camera whose files are here', () => {
  const files = [
    file('DCIM/100QMST/QMST0001.JPG'),
    file('DCIM/100QMST/QMST0002.JPG', { state: 'once' }),
    file('DCIM/100QMST/QMST0009.JPG', { state: 'missing', camera: null }),
    file('DCIM/100QMXX/QMXX0100.JPG', { camera: 'cam2' }),
    file('MISC/NOTE.TXT'),
  ];
  expect(cardOutcome(report(files, false))).toEqual({
    type: 'card-checked',
    folder: '/card',
    files: 5,
    bytes: 50,
    ...{ safe: 3, once: 1, missing: 1, unread: 0 },
    isSafe: false,
    lasts: [
      { camera: 'cam1', prefix: 'ST', counter: 2 },
      { camera: 'cam2', prefix: 'XX', counter: 100 },
    ],
  });
});
