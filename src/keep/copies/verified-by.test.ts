import { expect, test } from 'vitest';
import { verifiedBy } from './verified-by.ts';

const read = { place: 'p1', wasRead: true, bad: ['a1'], journalIsBad: false };
const fine = { seq: 9, bad: [] };

test('of a place that was away the last reading stands, of one that was read this one', () => {
  const before = verifiedBy(1, { ...fine, seq: 5 }, [read, { ...read, place: 'p2' }], null);
  const after = verifiedBy(
    2,
    fine,
    [
      { ...read, bad: [] },
      { ...read, place: 'p2', wasRead: false, bad: [] },
    ],
    before,
  );
  expect(after).toEqual({
    beganMs: 2,
    originals: [],
    places: [
      { place: 'p1', seq: 9, bad: [], journalIsBad: false },
      { place: 'p2', seq: 5, bad: ['a1'], journalIsBad: false },
    ],
  });
});
