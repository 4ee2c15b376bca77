import { expect, test } from 'vitest';
import type { FrameReadings } from '../../facts/index.ts';
import { noWishes, readPicture } from '../../judge/index.ts';
import type { LitFrameRow, Register } from '../../register/index.ts';
import { LightBook, type LitFrame } from './light-book.ts';

const frame = (n: number, more: Partial<LitFrame> = {}): LitFrame => ({
  id: `f${n}`,
  job: 'QM-26',
  shot: 's1',
  camera: 'cam1',
  orderMs: n * 1000,
  purpose: 'picture',
  capture: { exposureTimeS: 1 / 125, fNumber: 8, sensitivity: 100 },
  ...more,
});

/** A register without frames: those of the test come one by one. */
const nothingKept = { litFrames: async () => [] };

/** A picture of one grey after another, so bright. */
const lit = (code: number): FrameReadings => {
  const data = new Uint8Array(96 * 64 * 3).map((_, at) => code - (Math.floor(at / 3) % 96) / 4);
  return readPicture({ data, widthPx: 96, heightPx: 64, channels: 3 }, noWishes, null);
};

test('the third frame of equal settings is held against those before it', async () => {
  const book = new LightBook(nothingKept);
  expect((await book.take(frame(1), lit(200))).trend).toBeNull();
  expect((await book.take(frame(2), lit(200))).trend).toBeNull();
  const { trend } = await book.take(frame(3), lit(120));
  expect(trend?.frames).toBe(2);
  expect(trend?.fromMedian.ev).toBeLessThan(-1);
});

test('frames that are read newest first come to the same in the end', async () => {
  const inOrder = new LightBook(nothingKept);
  const codes = [200, 200, 198, 120, 200];
  const wanted: unknown[] = [];
  for (const [n, code] of codes.entries()) wanted.push((await inOrder.take(frame(n), lit(code))).trend);
  const backwards = new LightBook(nothingKept);
  const trends = new Map<string, unknown>();
  for (const n of [4, 3, 2, 1, 0]) {
    const { trend, later } = await backwards.take(frame(n), lit(codes[n] ?? 0));
    trends.set(`f${n}`, trend);
    for (const each of later) trends.set(each.frame, each.trend);
  }
  expect(codes.map((_, n) => trends.get(`f${n}`))).toEqual(wanted);
});

test('a grey card before the lens, a test and an empty set are neither counted nor held against the others', async () => {
  const book = new LightBook(nothingKept);
  for (const n of [1, 2]) await book.take(frame(n), lit(200));
  for (const [at, purpose] of (['target', 'test', 'plate', 'light-layer'] as const).entries()) {
    expect((await book.take(frame(3 + at, { purpose }), lit(90))).trend).toBeNull();
  }
  const { trend } = await book.take(frame(9), lit(200));
  expect(trend?.frames).toBe(2);
  expect(trend?.fromMedian.ev).toBeCloseTo(0, 6);
});

test('a frame that is found to be a card after it was read no longer counts, and counts again when that is taken back', async () => {
  const book = new LightBook(nothingKept);
  for (const n of [1, 2, 3, 4]) await book.take(frame(n), lit(n === 3 ? 90 : 200));
  const after = book.intended('f3', 'target');
  expect(after.map(({ frame: id, trend }) => [id, trend?.frames ?? null])).toEqual([
    ['f3', null],
    ['f4', 2],
  ]);
  expect(book.intended('f3', 'target')).toEqual([]);
  expect(book.intended('f3', 'picture').map(({ trend }) => trend?.frames)).toEqual([2, 3]);
  expect(book.intended('nobody', 'test')).toEqual([]);
});

test('other settings, another shot, another camera and unknown settings are not compared', async () => {
  const book = new LightBook(nothingKept);
  for (const n of [1, 2, 3]) await book.take(frame(n), lit(200));
  const others: Partial<LitFrame>[] = [
    { capture: { exposureTimeS: 1 / 60, fNumber: 8, sensitivity: 100 } },
    { capture: null },
    { shot: 's2' },
    { camera: 'cam2' },
  ];
  for (const other of others) expect((await book.take(frame(4, other), lit(120))).trend).toBeNull();
  // The same frame once more is not its own past.
  expect((await book.take(frame(3), lit(200))).trend?.frames).toBe(2);
});

test('a station that was started anew goes on where it was: what the register kept of equal settings counts', async () => {
  const asked: unknown[] = [];
  const kept = (n: number, code: number, more: Partial<LitFrameRow> = {}): LitFrameRow => ({
    id: `f${n}`,
    name: `f${n}.DNG`,
    orderMs: n * 1000,
    purpose: 'picture',
    capture: frame(n).capture,
    source: 'picture',
    light: lit(code).exposed.light,
    ...more,
  });
  const register: Pick<Register, 'litFrames'> = {
    litFrames: async (query) => {
      asked.push(query.shot);
      return [
        kept(1, 200),
        kept(2, 90, { capture: { exposureTimeS: 1 / 60, fNumber: 8, sensitivity: 100 } }),
        kept(3, 90, { source: 'preview' }),
        kept(3.5, 90, { purpose: 'target' }),
        kept(4, 200),
      ];
    },
  };
  const book = new LightBook(register);
  const { trend } = await book.take(frame(5), lit(120));
  expect(trend?.frames).toBe(2);
  expect(trend?.fromMedian.ev).toBeLessThan(-1);
  // Asked once: from then on it remembers.
  expect((await book.take(frame(6), lit(120))).trend?.frames).toBe(3);
  expect(asked).toEqual(['s1']);
});
