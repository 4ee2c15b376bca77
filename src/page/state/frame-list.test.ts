import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import { frameListOf, framesOf, onlyFrames, withFrame, withFrames, withoutFrame } from './frame-list.ts';

/** Seconds in an order that is none, each once: 7 is prime to 601. */
const seconds = Array.from({ length: 601 }, (_, index) => (index * 7) % 601);
const idOf = (second: number): string => `f${String(second).padStart(3, '0')}`;

test('frames that come one by one, out of order and many more than are held beside the large map, stand in order', () => {
  let list = frameListOf([]);
  for (const second of seconds) list = withFrame(list, sampleFrame(idOf(second), second));
  expect(list.order).toEqual([...seconds].sort((a, b) => a - b).map(idOf));
  expect(list.byId.size).toBe(601);
  expect([...list.byId.keys()].sort()).toEqual(list.order);
  expect(framesOf(list).map(({ id }) => id)).toEqual(list.order);
});

test('a list that was taken stays as it was', () => {
  const before = frameListOf([sampleFrame('a', 0, { version: 1 })]);
  const after = withFrame(before, sampleFrame('a', 0, { version: 2, mark: 'hero' }));
  expect(before.byId.get('a')?.mark).toBe('none');
  expect(after.byId.get('a')?.mark).toBe('hero');
  expect([...after.byId.values()].map(({ mark }) => mark)).toEqual(['hero']);
});

test('a frame whose shutter is read late goes to its place, and is there once', () => {
  const list = frameListOf([sampleFrame('a', 10), sampleFrame('b', 20), sampleFrame('c', 30)]);
  expect(withFrame(list, sampleFrame('c', 5, { version: 9 })).order).toEqual(['c', 'a', 'b']);
});

test('earlier pages of the listing go before, and what the station lists no more goes', () => {
  const list = withFrames(frameListOf([sampleFrame('c', 30)]), [sampleFrame('b', 20), sampleFrame('a', 10)]);
  expect(list.order).toEqual(['a', 'b', 'c']);
  const left = onlyFrames(list, new Set(['a', 'c']));
  expect([left.order, left.byId.has('b'), left.byId.size]).toEqual([['a', 'c'], false, 2]);
  expect(withoutFrame(left, 'a').order).toEqual(['c']);
});

test('what has changed since an earlier list is told, across a new large map too', () => {
  const before = frameListOf([sampleFrame('a', 0), sampleFrame('b', 10)]);
  let after = withFrame(before, sampleFrame('b', 10, { version: 9 }));
  expect(after.byId.changedSince(before.byId).map(({ id }) => id)).toEqual(['b']);
  for (const second of seconds) after = withFrame(after, sampleFrame(idOf(second), second));
  expect(after.byId.changedSince(before.byId)).toHaveLength(1 + seconds.length);
  expect(after.byId.changedSince(after.byId)).toEqual([]);
});
