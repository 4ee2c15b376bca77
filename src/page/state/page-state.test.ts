import { expect, test } from 'vitest';
import type { Frame } from '../../contract/index.ts';
import { sampleFile, sampleFrame, sampleStation } from '../testing/sample-frame.ts';
import { firstState, type PageAction, type PageState, reducePage } from './page-state.ts';
import { onTheWay, shownFrame } from './shown-frame.ts';

const after = (state: PageState, ...actions: PageAction[]): PageState => actions.reduce(reducePage, state);
const loaded = (...frames: Frame[]): PageState =>
  after(firstState, { type: 'loaded', station: sampleStation(), frames });
const told = (frame: Frame): PageAction => ({
  type: 'event',
  event: { type: 'frame', change: 'read', frame },
});
const arriving = (id: string, second: number): Frame =>
  sampleFrame(id, second, {
    picture: { state: 'none' },
    files: [sampleFile(id, { state: 'arriving', size: 1000, sha256: null })],
  });

test('the page follows the newest by shutter, not the last to arrive: a backlog does not take the page over', () => {
  const state = after(loaded(sampleFrame('late', 100)), told(sampleFrame('backlog', 40)));
  expect(state.frames.order).toEqual(['backlog', 'late']);
  expect(shownFrame(state)?.id).toBe('late');
});

test('a frame of which only bytes are here waits beside the one shown', () => {
  const state = loaded(sampleFrame('a', 0), arriving('b', 20));
  expect(shownFrame(state)?.id).toBe('a');
  expect(onTheWay(state)?.id).toBe('b');
});

test('the very first frame is shown from its first byte', () => {
  expect(shownFrame(loaded(arriving('a', 0)))?.id).toBe('a');
});

test('a chosen frame stays while others arrive, and choosing the newest is following it', () => {
  const chosen = after(
    loaded(sampleFrame('a', 0), sampleFrame('b', 10)),
    { type: 'choose', id: 'a' },
    told(sampleFrame('c', 20)),
  );
  expect(shownFrame(chosen)?.id).toBe('a');
  const followed = after(chosen, { type: 'choose', id: 'c' }, told(sampleFrame('d', 30)));
  expect(shownFrame(followed)?.id).toBe('d');
});

test('steps go along the day and stop at its ends', () => {
  const state = loaded(sampleFrame('a', 0), sampleFrame('b', 10), sampleFrame('c', 20));
  const back = after(state, { type: 'step', by: -1 });
  expect(shownFrame(back)?.id).toBe('b');
  const first = after(back, { type: 'step', by: -1 }, { type: 'step', by: -1 });
  expect(shownFrame(first)?.id).toBe('a');
  const on = after(first, { type: 'step', by: 1 }, { type: 'step', by: 1 }, { type: 'step', by: 1 });
  expect(on.chosen).toBeNull();
});

test('an older version of a frame, come late, changes nothing', () => {
  const newer = sampleFrame('a', 0, { version: 7, mark: 'hero' });
  const state = after(loaded(newer), told(sampleFrame('a', 0, { version: 6 })));
  expect(state.frames.byId.get('a')).toBe(newer);
});

test('letting a broken-off file go takes its frame along, unless another file of it is kept', () => {
  const broken = sampleFile('A.DNG', { state: 'broken-off', sha256: null });
  const alone = sampleFrame('a', 0, { files: [broken] });
  const withJpeg = sampleFrame('b', 5, { files: [broken, sampleFile('B.JPG')] });
  const letGo = (frame: Frame): PageAction => ({
    type: 'event',
    event: { type: 'arrival', change: 'let-go', frame },
  });
  const state = after(loaded(alone, withJpeg), { type: 'choose', id: 'a' }, letGo(alone), letGo(withJpeg));
  expect(state.frames.order).toEqual(['b']);
  expect(state.chosen).toBeNull();
});

test('a lost station keeps what was known, and the moment of its loss', () => {
  const state = after(loaded(sampleFrame('a', 0)), { type: 'lost', atMs: 5 }, { type: 'lost', atMs: 9 });
  expect(state.link).toEqual({ state: 'lost', sinceMs: 5 });
  expect(state.frames.order).toEqual(['a']);
});

test('asking for the verdict that lies open closes it', () => {
  const open = after(firstState, { type: 'open', question: 'sharp' });
  expect(open.open).toBe('sharp');
  expect(after(open, { type: 'open', question: 'sharp' }).open).toBeNull();
});

test('events tell no passwords: those that are known stay, one that was asked for takes their place', () => {
  const station = sampleStation();
  const without = { ...station, cameras: station.cameras.map((camera) => ({ ...camera, password: null })) };
  const passwords = (state: PageState) => state.station?.cameras.map(({ password }) => password);
  const known = passwords(loaded());
  expect(known?.[0]).toMatch(/./);
  expect(passwords(after(loaded(), { type: 'event', event: { type: 'line', station: without } }))).toEqual(
    known,
  );
  const renewed = { ...station, cameras: station.cameras.map((camera) => ({ ...camera, password: 'new' })) };
  expect(passwords(after(loaded(), { type: 'station-seen', station: renewed }))).toEqual(['new']);
});

test('the newest frames are there first, the earlier ones join them, and what is listed no more goes at the end', () => {
  const first = after(firstState, {
    type: 'loaded',
    station: sampleStation(),
    frames: [sampleFrame('c', 30)],
    more: true,
  });
  expect([first.frames.order, first.allFrames]).toEqual([['c'], false]);
  const earlier = after(first, {
    type: 'earlier-loaded',
    frames: [sampleFrame('b', 20), sampleFrame('a', 10)],
  });
  expect(earlier.frames.order).toEqual(['a', 'b', 'c']);
  const all = after(earlier, { type: 'all-loaded', ids: new Set(['a', 'c']) });
  expect([all.frames.order, all.allFrames]).toEqual([['a', 'c'], true]);
  // Back after a while: what was known stays to be seen while the listing is read anew.
  const back = after(all, {
    type: 'loaded',
    station: sampleStation(),
    frames: [sampleFrame('d', 40)],
    more: true,
  });
  expect([back.frames.order, back.allFrames]).toEqual([['a', 'c', 'd'], true]);
});

test('a card that closes late does not close the one opened meanwhile', () => {
  const opened = after(firstState, { type: 'card', card: 'tray' }, { type: 'card', card: 'move' });
  expect(after(opened, { type: 'card-closed', card: 'tray' }).card).toBe('move');
  expect(after(opened, { type: 'card-closed', card: 'move' }).card).toBeNull();
});
