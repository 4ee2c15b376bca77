import { expect, test } from 'vitest';
import type { KeepEvent } from '../keep/index.ts';
import { BadCopies } from './bad-copies.ts';

const copy = { arrival: 'a1', frame: 'f1', place: 'p1' };
const event = (type: 'copied' | 'copy-lost', of: typeof copy): KeepEvent => ({
  ...of,
  ...{ job: 'j', camera: 'c', name: 'n', viewPath: '/n', diskPath: '/n', sizeBytes: 1, announcedBytes: null },
  ...{ firstByteMs: null, lastByteMs: null, atMs: 1 },
  ...(type === 'copied' ? { type, otherDevice: true } : { type }),
});

test('a copy found bad is one until it is made anew or lost, in its place alone', () => {
  for (const type of ['copied', 'copy-lost'] as const) {
    const bad = new BadCopies();
    bad.allFound([copy, { ...copy, place: 'p2' }], []);
    bad.hear(event(type, { ...copy, place: 'p2' }));
    expect([bad.has('a1', 'p1'), bad.has('a1', 'p2')]).toEqual([true, false]);
  }
});

test('its frame is told when it is found and when the next reading finds it good', () => {
  const bad = new BadCopies();
  const told: string[] = [];
  bad.onChange((frame) => void told.push(frame));
  bad.allFound([copy, { ...copy, place: 'p2' }], []);
  bad.allFound([copy, { ...copy, place: 'p2' }], []);
  bad.allFound([{ ...copy, place: 'p2' }], []);
  expect(told).toEqual(['f1', 'f1']);
});

test('of a place its bad copies are said, else its bad journal', () => {
  const bad = new BadCopies();
  bad.allFound([copy], ['p1', 'p2']);
  expect(bad.findingIn('p1', '/b')).toEqual({ code: 'copy.found-bad', args: { folder: '/b', count: 1 } });
  expect(bad.findingIn('p2', '/c')).toEqual({ code: 'copy.journal-found-bad', args: { folder: '/c' } });
  expect(bad.findingIn('p3', '/d')).toBeNull();
});
