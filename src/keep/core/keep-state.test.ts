import { expect, test, vi } from 'vitest';
import { KeepState } from './keep-state.ts';
import type { JournalRecord } from './records.ts';

const sha256 = '1'.repeat(64);

/** A file that came under this path and was kept; all have the same bytes. */
function cameAs(state: KeepState, arrival: string, path: string, frame: string = arrival): void {
  const of = { arrival, frame, job: 'QM-26', camera: 'cam1', path };
  const [from, name] = [{ incoming: arrival, via: 'ftp', announcedBytes: null }, path.slice(1)];
  apply(state, { type: 'announced', ...of, ...from, prefixOf: null, prefixBytes: 0, over: null });
  const kept = { name, original: `jobs/${arrival}`, sizeBytes: 9, sha256, wholeness: 'whole' } as const;
  apply(state, { type: 'kept', ...of, ...kept, expectedBytes: null, firstByteMs: 1, lastByteMs: 2 });
}

let seq = 0;
function apply(state: KeepState, record: object): void {
  seq += 1;
  state.apply({ v: 1, seq, group: seq, atMs: seq, ...record } as unknown as JournalRecord);
}

const same = (state: KeepState, path: string): string[] =>
  state.findSame('cam1', path, 9, sha256).map(({ id }) => id);

test('a file is known by the name it came under and by the one it has now, whatever it was called between', () => {
  const state = new KeepState();
  cameAs(state, 'a1', '/A.TMP');
  apply(state, { type: 'renamed', camera: 'cam1', from: '/A.TMP', to: '/B.DNG', arrival: 'a1' });
  apply(state, { type: 'renamed', camera: 'cam1', from: '/B.DNG', to: '/C.DNG', arrival: 'a1' });
  expect(same(state, '/A.TMP')).toEqual(['a1']);
  expect(same(state, '/B.DNG')).toEqual([]);
  expect(same(state, '/C.DNG')).toEqual(['a1']);
  apply(state, { type: 'renamed', camera: 'cam1', from: '/C.DNG', to: '/A.TMP', arrival: 'a1' });
  expect(same(state, '/A.TMP')).toEqual(['a1']);
  expect(same(state, '/C.DNG')).toEqual([]);
});

test('a folder that is renamed takes what it holds along', () => {
  const state = new KeepState();
  apply(state, { type: 'folder-made', camera: 'cam1', path: '/100QUILL' });
  cameAs(state, 'a1', '/100QUILL/A.DNG');
  apply(state, { type: 'renamed', camera: 'cam1', from: '/100QUILL', to: '/101QUILL', arrival: null });
  expect(same(state, '/101QUILL/A.DNG')).toEqual(['a1']);
});

test('the newest that was kept comes first, though an older one was given the name later', () => {
  const state = new KeepState();
  cameAs(state, 'a1', '/OLD.DNG');
  cameAs(state, 'a2', '/A.DNG');
  cameAs(state, 'a3', '/A.DNG');
  apply(state, { type: 'hidden', camera: 'cam1', path: '/A.DNG', arrival: 'a3' });
  apply(state, { type: 'renamed', camera: 'cam1', from: '/OLD.DNG', to: '/A.DNG', arrival: 'a1' });
  expect(same(state, '/A.DNG')).toEqual(['a3', 'a2', 'a1']);
  expect(state.findSame('cam1', '/A.DNG', 8, sha256)).toEqual([]);
  expect(state.findSame('cam2', '/A.DNG', 9, sha256)).toEqual([]);
});

test('the same bytes under a thousand names are not looked through for one of them', () => {
  const state = new KeepState();
  for (let at = 0; at < 1000; at += 1) cameAs(state, `a${at}`, `/N${at}.DNG`);
  const looked = vi.spyOn(state.arrivals, 'get');
  expect(same(state, '/N500.DNG')).toEqual(['a500']);
  expect(looked).toHaveBeenCalledTimes(1);
});
