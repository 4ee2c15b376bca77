import { expect, test } from 'vitest';
import type { Wholeness } from '../../facts/index.ts';
import type { BrokenOffEnd } from './arrival-records.ts';
import { decideEnding, type Ending } from './ending.ts';
import { fewestBytes } from './fewest-bytes.ts';

const whole: Wholeness = { kind: 'whole' };
const unknown: Wholeness = { kind: 'unknown' };
const cut: Wholeness = { kind: 'cut', expectedBytes: 200 };
const cutSomewhere: Wholeness = { kind: 'cut', expectedBytes: null };
const keep = (wholeness: 'whole' | 'unknown'): Ending => ({ kind: 'keep', wholeness });
const broken = (expectedBytes: number | null): Ending => ({ kind: 'cut', expectedBytes });

// 100 bytes are here. The table of decision 0008, keeping 2: structure decides; what it cannot tell, the end and ALLO do.
test('K2.13 fewer bytes than its name promises at the least are cut, however they ended; as many are not', () => {
  expect(decideEnding('closed', unknown, 7, null, 8)).toEqual(broken(null));
  expect(decideEnding('closed', unknown, 0, null, 4)).toEqual(broken(null));
  expect(decideEnding('closed', unknown, 0, 20, 4)).toEqual(broken(20));
  expect(decideEnding('closed', unknown, 8, null, 8)).toEqual(keep('unknown'));
  expect(decideEnding('closed', unknown, 0, null, 0)).toEqual(keep('unknown'));
});

test.each([
  ['/DCIM/A.JPG', 4],
  ['/a.jpeg', 4],
  ['/A.DNG', 8],
  ['/a.nef', 8],
  ['/A.CR3', 16],
  ['/notes.txt', 0],
  ['/A.XMP', 0],
  ['/A.JPG.part', 0],
  ['/jpg', 0],
  ['/A', 0],
])('%s promises %i bytes', (path, bytes) => {
  expect(fewestBytes(path)).toBe(bytes);
});

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
  ['closed', cutSomewhere, null, broken(null)],
  ['closed', cutSomewhere, 100, broken(null)],
  ['reset', cutSomewhere, 101, broken(101)],
])('K2.9 %s, structure %o, announced %s: %o', (end, wholeness, announced, expected) => {
  expect(decideEnding(end, wholeness, 100, announced)).toEqual(expected);
});
