import { expect, test } from 'vitest';
import { clockOffBy } from './clock-off.ts';

const seen = { offsetMs: -2400, plusMinusMs: 140, frame: 'f', at: '2026-10-01T08:00:00Z' };

test('a clock that is 2.4 s ahead is said to be, until it is put right', () => {
  expect(clockOffBy({ name: 'cam1', clockSeen: seen, clockOffsetMs: 0 })).toEqual({
    code: 'slate.clock',
    args: { camera: 'cam1', aheadMs: 2400, plusMinusMs: 140 },
  });
  expect(clockOffBy({ name: 'cam1', clockSeen: seen, clockOffsetMs: -2400 })).toBeNull();
});

test('what is no larger than the measuring is nothing to put right', () => {
  expect(clockOffBy({ name: 'cam1', clockSeen: seen, clockOffsetMs: -2400 + 140 })).toBeNull();
  expect(clockOffBy({ name: 'cam1', clockSeen: seen, clockOffsetMs: -2400 + 141 })).not.toBeNull();
  expect(clockOffBy({ name: 'cam1', clockSeen: null, clockOffsetMs: 5000 })).toBeNull();
});
