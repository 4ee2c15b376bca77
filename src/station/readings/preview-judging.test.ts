import { expect, test } from 'vitest';
import type { CaptureFacts, FrameReadings } from '../../facts/index.ts';
import { noWishes, readPicture } from '../../judge/index.ts';
import type { PreviewPixels } from '../../workers/index.ts';
import type { CutPreview } from '../core/first-view.ts';
import type { ReadFrame } from './frame-judging.ts';
import { PreviewJudging } from './preview-judging.ts';

const preview = (widthPx: number, more: Partial<CutPreview> = {}): CutPreview => ({
  jpeg: new Uint8Array([1]),
  complete: true,
  widthPx,
  heightPx: (widthPx * 2) / 3,
  orientation: 1,
  uprightWidthPx: 6000,
  uprightHeightPx: 4000,
  ...more,
});

const grey = { data: new Uint8Array(96 * 64 * 3).fill(90), widthPx: 96, heightPx: 64, channels: 3 as const };
const readings: FrameReadings = readPicture(grey, noWishes, 6000);

/** A pool whose jobs end when the test says so. */
function heldPool() {
  const jobs: {
    readonly frame: string;
    readonly pixels: PreviewPixels;
    readonly end: () => void;
    readonly fail: () => void;
  }[] = [];
  const readPreview = (frame: string, _: CaptureFacts, pixels: PreviewPixels): Promise<ReadFrame> =>
    new Promise((resolve, reject) => {
      const end = (): void => resolve({ readings, held: null });
      jobs.push({ frame, pixels, end, fail: () => reject(new Error('cannot be read')) });
    });
  return { jobs, readPreview };
}

const settle = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

test('one preview is read at a time, and of those that come meanwhile only the last', async () => {
  const pool = heldPool();
  const done: string[] = [];
  const judging = new PreviewJudging(pool, async (frame) => void done.push(frame));
  for (const frame of ['f1', 'f2', 'f3']) judging.add(frame, preview(1620), {});
  expect(pool.jobs).toHaveLength(1);
  pool.jobs[0]?.end();
  await settle();
  expect(pool.jobs.map(({ frame }) => frame)).toEqual(['f1', 'f3']);
  // A preview that cannot be read holds up nothing.
  pool.jobs[1]?.fail();
  await settle();
  judging.add('f4', preview(1620), {});
  pool.jobs[2]?.end();
  await settle();
  expect(done).toEqual(['f1', 'f4']);
});

test('stamps, parts and full-size previews are left alone', () => {
  const pool = heldPool();
  const judging = new PreviewJudging(pool, async () => {});
  judging.add('stamp', preview(160), {});
  judging.add('part', preview(1620, { complete: false }), {});
  judging.add('full', preview(6000), {});
  expect(pool.jobs).toHaveLength(0);
  judging.add('middling', preview(1620), {});
  expect(pool.jobs[0]?.pixels).toMatchObject({ orientation: 1, fullWidthPx: 6000 });
});
