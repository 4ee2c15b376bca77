import { expect, test } from 'vitest';
import type { Finding, Judgement } from '../../facts/index.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { isNextStep, nearingTones, type PlaceStep, placeStepOf } from './nearing.ts';

const at = (n: number, timesLimit: number, more: Partial<PlaceStep> = {}): PlaceStep => ({
  frame: `f${n}`,
  shot: 's1',
  momentMs: n * 3000,
  timesLimit,
  isInPlace: timesLimit <= 1,
  ...more,
});

const placed = (judgement: Judgement, ...findings: Finding[]) => {
  const frame = sampleFrame('a', 0);
  const [first = { code: 'place.no-reference', args: {} }, ...rest] = findings;
  const inPlace = { judgement, findings: [first, ...rest], figure: null };
  return placeStepOf({ ...frame, shot: 's1', verdicts: { ...frame.verdicts, inPlace } });
};

test('a subject that comes nearer by halves rises by equal steps, and sounds twice when it is there', () => {
  const way = [32, 16, 8, 4, 2].map((times, n) => at(n, times));
  const ends = way.map((step, n) => nearingTones(way[n - 1] ?? null, step)[0].toHertz);
  const steps = ends.slice(1).map((hertz, n) => 12 * Math.log2(hertz / ends[n]));
  for (const semitones of steps) expect(semitones).toBeCloseTo(24 / 5, 6);
  expect(ends[0]).toBeCloseTo(330, 6);
  const there = nearingTones(way[4], at(5, 0.7));
  expect(there).toHaveLength(2);
  expect(there[0].hertz).toBeCloseTo(1320, 6);
});

test('nearer glides up, farther glides down, and the first of all stands', () => {
  const [near] = nearingTones(at(1, 8), at(2, 4));
  const [far] = nearingTones(at(1, 4), at(2, 8));
  const [first] = nearingTones(null, at(2, 8));
  expect(near.toHertz).toBeGreaterThan(near.hertz);
  expect(far.toHertz).toBeLessThan(far.hertz);
  expect(first.toHertz).toBe(first.hertz);
});

test('beyond measure is as low as it gets, never lower', () => {
  expect(nearingTones(null, at(1, 5000))[0].toHertz).toBeCloseTo(330, 6);
});

test('another shot, a long pause, an earlier frame and the same one are no next step', () => {
  expect(isNextStep(at(1, 3), at(2, 2))).toBe(true);
  expect(isNextStep(null, at(2, 2))).toBe(false);
  expect(isNextStep(at(1, 3), at(2, 2, { shot: 's2' }))).toBe(false);
  expect(isNextStep(at(1, 3), at(1, 2))).toBe(false);
  expect(isNextStep(at(2, 3), at(1, 2))).toBe(false);
  expect(isNextStep(at(1, 0.4), at(2, 0.4))).toBe(false);
  expect(isNextStep(at(1, 3), at(2, 2, { momentMs: 3000 + 120_001 }))).toBe(false);
});

test('how far it is off is told in limits, by what is worst: shift, turn or size', () => {
  const moved = { code: 'place.moved', args: { rightPx: 30, downPx: 40, limitPx: 10, mm: 0 } };
  const turned = { code: 'place.turned', args: { degrees: -1.6, limitDegrees: 0.2 } };
  const inMm = { code: 'place.moved', args: { rightPx: 30, downPx: 40, mm: 3, limitMm: 1 } };
  expect(placed('bad', moved)?.timesLimit).toBe(5);
  expect(placed('bad', moved, turned)?.timesLimit).toBeCloseTo(8);
  expect(placed('bad', inMm)?.timesLimit).toBe(3);
  expect(placed('good', { code: 'place.good', args: { px: 2 } })?.timesLimit).toBe(0);
  expect(placed('unknown', { code: 'place.no-reference', args: {} })).toBeNull();
  expect(placed('doubt', { code: 'place.preview-off', args: {} })).toBeNull();
});

test('a part that moved by itself is as far off as it lies, though the rest holds still', () => {
  const part = { code: 'place.part-moved', args: { rightPx: 30, downPx: 40, mm: 0, limitPx: 10 } };
  expect(placed('bad', part)).toMatchObject({ timesLimit: 5, isInPlace: false });
});

test('a doubt within the limit does not sound as in place', () => {
  const moved = { code: 'place.moved', args: { rightPx: 9.99, downPx: 0, limitPx: 10, mm: 0 } };
  const step = placed('doubt', moved);
  expect(step).toMatchObject({ timesLimit: 0.999, isInPlace: false });
  expect(step === null ? [] : nearingTones(at(1, 3), step)).toHaveLength(1);
});
