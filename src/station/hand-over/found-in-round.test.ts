import { expect, test } from 'vitest';
import type { ReadAgainEnd, VerificationRound, Verified } from '../../keep/index.ts';
import { allFound, freshRound, withFound } from './found-in-round.ts';

const known: Verified = {
  beganMs: 1,
  originals: [{ arrival: 'a', trouble: 'differs' }],
  places: [
    { place: 'one', seq: 1, bad: ['a'], journalIsBad: true },
    { place: 'away', seq: 1, bad: ['x'], journalIsBad: false },
  ],
};
const round: VerificationRound = {
  ...freshRound(5),
  seq: 9,
  originals: [
    { arrival: 'a', trouble: 'missing' },
    { arrival: 'b', trouble: 'differs' },
  ],
  copies: [
    { arrival: 'a', place: 'one' },
    { arrival: 'b', place: 'one' },
  ],
};

test('what a reading has found so far stands beside what was known, each once, the newer word first', () => {
  const both = withFound(known, round);
  expect(both.originals).toEqual(round.originals);
  expect(both.places).toEqual([
    { place: 'one', seq: 9, bad: ['a', 'b'], journalIsBad: true },
    { place: 'away', seq: 9, bad: ['x'], journalIsBad: false },
  ]);
  expect(both.beganMs).toBe(5);
  // Nothing found yet takes nothing back.
  expect(withFound(known, freshRound(5)).originals).toEqual(known.originals);
});

test('once all was read only that is bad which was found, but of a place that was away', () => {
  // Only what is read of the end.
  const end = {
    seq: 12,
    places: [
      { place: 'one', wasRead: true, journalIsBad: false },
      { place: 'away', wasRead: false, journalIsBad: false },
    ],
  } as unknown as ReadAgainEnd;
  expect(allFound(known, { ...round, originals: [], copies: [] }, end)).toEqual({
    beganMs: 5,
    originals: [],
    places: [
      { place: 'one', seq: 12, bad: [], journalIsBad: false },
      { place: 'away', seq: 1, bad: ['x'], journalIsBad: false },
    ],
  });
});
