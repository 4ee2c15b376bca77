import { expect, test } from 'vitest';
import type { CaptureFacts, LightMap } from '../../facts/index.ts';
import type { LitFrameRow } from '../../register/index.ts';
import { type LitFrames, lightSeries } from './light-series.ts';

const dials: CaptureFacts = { exposureTimeS: 1 / 125, fNumber: 8, sensitivity: 100 };

/** A scene of 24 x 16 parts, so many stops brighter than the plainest. */
function lit(id: string, ev: number, capture: CaptureFacts = dials): LitFrameRow {
  const stops = Array.from({ length: 384 }, (_, part) => (part % 7) / 3 - 2 + ev);
  const light: LightMap = { columns: 24, rows: 16, stops };
  return {
    id,
    name: `${id}.DNG`,
    orderMs: Number(id.slice(1)) * 1000,
    purpose: 'picture',
    capture,
    source: 'raw',
    light,
  };
}

function register(rows: readonly LitFrameRow[]): LitFrames {
  return {
    litFrames: async ({ upTo }) => rows.filter(({ orderMs }) => orderMs <= upTo.orderMs),
    litFrame: async (id) => rows.find((row) => row.id === id) ?? null,
  };
}

const frame = (id: string) => ({
  id,
  job: 'QM-26',
  shot: null,
  camera: 'cam1',
  orderMs: Number(id.slice(1)) * 1000,
});

test('without a reference a strobe that stayed dark stands out from the middle of the frames, not the others', async () => {
  const rows = [lit('f1', 0.02), lit('f2', 0), lit('f3', -1.5), lit('f4', -0.01)];
  const series = await lightSeries(register(rows), frame('f4'), null);
  expect(series?.baseline).toEqual({ kind: 'middle', name: null });
  expect(series?.frames.map(({ name }) => name)).toEqual(['f1.DNG', 'f2.DNG', 'f3.DNG', 'f4.DNG']);
  // The middle of 0.02, 0, -1.5 and -0.01 is -0.005.
  const evs = series?.frames.map(({ ev }) => Math.round((ev ?? Number.NaN) * 1e6) / 1e6);
  expect(evs).toEqual([0.025, 0.005, -1.495, -0.005]);
});

test('against the reference, and what the dials were changed by is no change of the light', async () => {
  const stopped: CaptureFacts = { ...dials, fNumber: 11.31 };
  const rows = [lit('f1', 0.4), lit('f2', -0.9, stopped), lit('f3', 0.1)];
  const series = await lightSeries(register(rows), frame('f3'), 'f1');
  expect(series?.baseline).toEqual({ kind: 'reference', name: 'f1.DNG' });
  // f/11.3 lets half of the light of f/8 through: of 1.3 stops less 0.3 are the light's.
  const evs = series?.frames.map(({ ev }) => Math.round((ev ?? Number.NaN) * 100) / 100 + 0);
  expect(evs).toEqual([0, -0.3, -0.3]);
});

test('a grey card among them is neither drawn nor counted into the middle', async () => {
  const card = { ...lit('f2', 3), purpose: 'target' } as const;
  const series = await lightSeries(register([lit('f1', 0.02), card, lit('f3', 0)]), frame('f3'), null);
  expect(series?.frames.map(({ frame: id }) => id)).toEqual(['f1', 'f3']);
});

test('a frame that was not read has no light to show', async () => {
  expect(await lightSeries(register([lit('f1', 0)]), frame('f2'), null)).toBeNull();
});
