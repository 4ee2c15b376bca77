import { expect, test } from 'vitest';
import type { Wholeness } from '../../facts/index.ts';
import { decideEnding, type Ending } from './ending.ts';
import type { BrokenOffEnd } from './records.ts';

const whole: Wholeness = { kind: 'whole' };
const unknown: Wholeness = { kind: 'unknown' };
const cut: Wholeness = { kind: 'cut', expectedBytes: 200 };
const keep = (wholeness: 'whole' | 'unknown'): Ending => ({ kind: 'keep', wholeness });
const broken = (expectedBytes: number | null): Ending => ({ kind: 'cut', expectedBytes });

// 100 bytes are here. The table of decision 0008, keeping 2: structure decides; what it cannot tell, the end and ALLO do.
test.each<[BrokenOffEnd, Wholeness, number | null, Ending]>([
  ['closed', whole, null, keep('whole')],
  ['closed', whole, 100, keep('whole')],
  ['closed', whole, 99, keep('whole')],
  ['closed', whole, 101, keep('unknown')],
  ['reset', whole, null, keep('whole')],
  ['stalled', whole, 101, keep('unknown')],
  ['unclosed', whole, null, keep('whole')],
  ['unclosed', unknown, null, broken(null)],
  ['unclosed', unknown, 100, broken(null)],
  ['unclosed', cut, null, broken(200)],
  ['closed', unknown, null, keep('unknown')],
  ['closed', unknown, 100, keep('unknown')],
  ['closed', unknown, 101, broken(101)],
  ['reset', unknown, null, broken(null)],
  ['reset', unknown, 100, broken(null)],
  ['aborted', unknown, 101, broken(101)],
  ['closed', cut, null, broken(200)],
  ['reset', cut, 100, broken(200)],
  ['control-lost', cut, 300, broken(200)],
])('K2.9 %s, structure %o, announced %s: %o', (end, wholeness, announced, expected) => {
  expect(decideEnding(end, wholeness, 100, announced)).toEqual(expected);
});
