import { expect, test } from 'vitest';
import type { VerificationNote } from '../keep/index.ts';
import { statusLines } from './verify-status.ts';

const last = {
  ...{ beganMs: 0, endedMs: Date.UTC(2026, 10, 30), files: 2, bytes: 10, badOriginals: 1 },
  places: [
    { folder: '/p', files: 2, bad: 1, wasRead: true },
    { folder: '/q', files: 2, bad: 0, wasRead: false },
  ],
};
const round: VerificationNote['round'] = {
  ...{ beganMs: 0, pace: 'slow', after: 'a1', seq: 9, doneFiles: 1, files: 2, doneBytes: 1000, bytes: 2000 },
  originals: [],
  copies: [{ arrival: 'a1', place: 'p1' }],
};

test('the status says when all was read, what each place held, and how far a reading is', () => {
  expect(statusLines(null)).toEqual(['Originals and copies were not read again yet.']);
  expect(statusLines({ sinceMs: 0, round, last })).toEqual([
    'All was read again, until 2026-11-30T00:00:00.000Z: 2 originals, 1 not as received.',
    '/p: 2 copies, 1 not as made.',
    '/q: was away, so its copies were not read.',
    'A reading goes on: 1 of 2 originals, 1 kB of 2 kB with copies, 1 found bad so far.',
  ]);
});
