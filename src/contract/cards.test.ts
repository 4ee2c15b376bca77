import { expect, test } from 'vitest';
import { newCardOutcome } from './cards.ts';

const told = {
  folder: '/card',
  startedAt: '2026-10-01T08:00:00.000Z',
  endedAt: '2026-10-01T08:00:01.000Z',
  files: 2,
  bytes: 20,
  counts: { safe: 2, once: 0, missing: 0, unread: 0 },
  mayBeWiped: true,
  findings: [],
  notSafe: [],
  passedOver: 0,
  copies: [],
  lasts: [],
  mark: null,
};

test('a card that may be wiped has files, and every one of them is safe', () => {
  const isTaken = (more: Partial<typeof told>): boolean =>
    newCardOutcome.safeParse({ ...told, ...more }).success;
  expect(isTaken({})).toBe(true);
  const one = { safe: 1, once: 1, missing: 0, unread: 0 };
  expect(isTaken({ counts: one })).toBe(false);
  expect(isTaken({ counts: one, mayBeWiped: false })).toBe(true);
  expect(isTaken({ files: 3 })).toBe(false);
  expect(isTaken({ files: 0, counts: { ...one, safe: 0, once: 0 } })).toBe(false);
});
