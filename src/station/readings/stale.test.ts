import { expect, test } from 'vitest';
import type { KeptReadings } from '../../facts/index.ts';
import { noWishes, partReadings, readPicture } from '../../judge/index.ts';
import { noLimits } from './frame-limits.ts';
import { isStale, rereadNeed } from './stale.ts';

const grey = { data: new Uint8Array(64 * 48 * 3).fill(90), widthPx: 64, heightPx: 48, channels: 3 } as const;
const { kept } = partReadings(readPicture(grey, noWishes, null), null, 'ref');
const limits = { ...noLimits, place: { frame: 'ref', layout: false } };
const unread: KeptReadings = { ...kept, place: { ...kept.place, shift: { unknown: 'reference-unread' } } };

test('a place that waits for its reference is read again once that has a file, and again for another file', () => {
  expect(rereadNeed(unread, limits, [])).toBeNull();
  const first = rereadNeed(unread, limits, ['aa']);
  expect(first).not.toBeNull();
  expect(rereadNeed(unread, limits, ['aa'])).toBe(first);
  expect(rereadNeed(unread, limits, ['aa', 'bb'])).not.toBe(first);
});

test('a place that was held against its reference is not read again, nor one that waits for another', () => {
  const held: KeptReadings = { ...kept, place: { ...kept.place, shift: { unknown: 'no-structure' } } };
  expect(rereadNeed(held, limits, ['aa'])).toBeNull();
  expect(isStale(unread, limits)).toBe(false);
  const other = { ...limits, place: { frame: 'other', layout: false } };
  expect(rereadNeed(unread, other, [])).not.toBeNull();
});
