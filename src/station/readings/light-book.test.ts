import { expect, test } from 'vitest';
import type { FrameReadings } from '../../facts/index.ts';
import { noWishes, readPicture } from '../../judge/index.ts';
import { LightBook, type LitFrame } from './light-book.ts';

const frame = (n: number, more: Partial<LitFrame> = {}): LitFrame => ({
  id: `f${n}`,
  job: 'QM-26',
  shot: 's1',
  camera: 'cam1',
  orderMs: n * 1000,
  capture: { exposureTimeS: 1 / 125, fNumber: 8, sensitivity: 100 },
  ...more,
});

/** A picture of one grey after another, so bright. */
const lit = (code: number): FrameReadings => {
  const data = new Uint8Array(96 * 64 * 3).map((_, at) => code - (Math.floor(at / 3) % 96) / 4);
  return readPicture({ data, widthPx: 96, heightPx: 64, channels: 3 }, noWishes, null);
};

test('the third frame of equal settings is held against those before it', () => {
  const book = new LightBook();
  expect(book.take(frame(1), lit(200)).trend).toBeNull();
  expect(book.take(frame(2), lit(200)).trend).toBeNull();
  const { trend } = book.take(frame(3), lit(120));
  expect(trend?.frames).toBe(2);
  expect(trend?.fromMedian.ev).toBeLessThan(-1);
});

test('frames that are read newest first come to the same in the end', () => {
  const inOrder = new LightBook();
  const codes = [200, 200, 198, 120, 200];
  const wanted = codes.map((code, n) => inOrder.take(frame(n), lit(code)).trend);
  const backwards = new LightBook();
  const trends = new Map<string, unknown>();
  for (const n of [4, 3, 2, 1, 0]) {
    const { trend, later } = backwards.take(frame(n), lit(codes[n] ?? 0));
    trends.set(`f${n}`, trend);
    for (const each of later) trends.set(each.frame, each.trend);
  }
  expect(codes.map((_, n) => trends.get(`f${n}`))).toEqual(wanted);
});

test('other settings, another shot, another camera and unknown settings are not compared', () => {
  const book = new LightBook();
  for (const n of [1, 2, 3]) book.take(frame(n), lit(200));
  const others: Partial<LitFrame>[] = [
    { capture: { exposureTimeS: 1 / 60, fNumber: 8, sensitivity: 100 } },
    { capture: null },
    { shot: 's2' },
    { camera: 'cam2' },
  ];
  for (const other of others) expect(book.take(frame(4, other), lit(120)).trend).toBeNull();
  // The same frame once more is not its own past.
  expect(book.take(frame(3), lit(200)).trend?.frames).toBe(2);
});
