import { expect, test } from 'vitest';
import {
  bracketFramesMax,
  bracketGapMs,
  burstGapMs,
  exposureEv,
  findSeries,
  type TimedFrame,
} from './series.ts';

const frame = (id: string, shutterMs: number, parts: Partial<TimedFrame> = {}): TimedFrame => ({
  id,
  camera: 'cam1',
  shutterMs,
  subSecondsKnown: true,
  exposureTimeS: 1 / 125,
  fNumber: 8,
  sensitivity: 100,
  ...parts,
});

// EV = log2(N² / t): the table of exposure values in ISO 2720 terms has EV 0 at f/1, 1 s; EV 15 at f/16, 1/128 s;
// one stop of sensitivity is one EV (APEX, Exif 2.32 annex C).
test.each([
  [1, 1, 100, 0],
  [16, 1 / 128, 100, 15],
  [8, 1 / 64, 100, 12],
  [8, 1 / 64, 200, 11],
])('f/%d, %d s, ISO %d is EV %d', (fNumber, exposureTimeS, sensitivity, ev) => {
  expect(exposureEv(frame('a', 0, { fNumber, exposureTimeS, sensitivity }))).toBeCloseTo(ev, 10);
});

test('frames within a second are a burst, and a pause ends it', () => {
  const frames = [0, burstGapMs, 2 * burstGapMs, 3 * burstGapMs + 1].map((at, n) => frame(`f${n}`, at));
  expect(findSeries(frames)).toEqual([
    { kind: 'burst', camera: 'cam1', frames: ['f0', 'f1', 'f2'], stepEv: null },
  ]);
});

test('frames of two cameras are never one series, however they are mixed', () => {
  expect(findSeries([frame('a', 0), frame('b', 100, { camera: 'cam2' })])).toEqual([]);
});

test('exposures in equal steps are a bracket in any order, with nominal times as cameras write them', () => {
  // Nominal 1/125, 1/60, 1/250 stand for steps of one stop (ISO 516, rounded values).
  const times = [1 / 125, 1 / 60, 1 / 250];
  const [bracket] = findSeries(times.map((exposureTimeS, n) => frame(`f${n}`, n * 400, { exposureTimeS })));
  expect(bracket).toMatchObject({ kind: 'bracket', frames: ['f0', 'f1', 'f2'] });
  expect(bracket?.stepEv).toBeCloseTo(1, 1);
});

test('two brackets one after the other are two', () => {
  const times = [1 / 128, 1 / 64, 1 / 256, 1 / 128, 1 / 64, 1 / 256];
  const series = findSeries(times.map((exposureTimeS, n) => frame(`f${n}`, n * 400, { exposureTimeS })));
  expect(series.map(({ kind, frames }) => [kind, frames.length])).toEqual([
    ['bracket', 3],
    ['bracket', 3],
  ]);
});

test('long exposures of a bracket do not part it, and a pause between them does', () => {
  const times = [2, 4, 8];
  const at = [0, 2500, 7000];
  const bracket = times.map((exposureTimeS, n) => frame(`f${n}`, at[n] ?? 0, { exposureTimeS }));
  expect(findSeries(bracket)[0]?.kind).toBe('bracket');
  const late = 2500 + 4000 + bracketGapMs + 1;
  expect(findSeries([...bracket.slice(0, 2), frame('f2', late, { exposureTimeS: 8 })])).toEqual([]);
});

test('unequal steps are no bracket, nor is a series without exposures', () => {
  const times = [1 / 128, 1 / 64, 1 / 16];
  expect(
    findSeries(times.map((exposureTimeS, n) => frame(`f${n}`, n * 400, { exposureTimeS })))[0]?.kind,
  ).toBe('burst');
  expect(findSeries([0, 1, 2].map((n) => frame(`f${n}`, n, { exposureTimeS: null })))[0]?.kind).toBe('burst');
});

test('a bracket has nine frames at most', () => {
  const many = Array.from({ length: bracketFramesMax + 1 }, (_, n) =>
    frame(`f${n}`, n * 400, { exposureTimeS: 2 ** -n }),
  );
  expect(findSeries(many)[0]?.frames).toHaveLength(bracketFramesMax);
});

test('whole seconds may be a second late: what could be within the gap is taken so for a bracket', () => {
  const times = [1 / 128, 1 / 64, 1 / 256];
  const frames = times.map((exposureTimeS, n) =>
    frame(`f${n}`, n * 2000, { exposureTimeS, subSecondsKnown: false }),
  );
  expect(findSeries(frames)[0]?.kind).toBe('bracket');
});
