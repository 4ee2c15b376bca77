import { expect, test } from 'vitest';
import { planFrames, shotNames } from './frame-plan.ts';

test('each shot begins with its target, and frames are shared out evenly', () => {
  const plan = planFrames({ frames: 14, shots: shotNames, seed: 1 });
  expect(plan).toHaveLength(14);
  expect(shotNames.map((shot) => plan.filter((frame) => frame.shot === shot).length)).toEqual([
    3, 3, 2, 2, 2, 2,
  ]);
  expect(shotNames.map((shot) => plan.find((frame) => frame.shot === shot)?.purpose)).toEqual(
    shotNames.map(() => 'target'),
  );
});

test('a short session shoots the first shots only', () => {
  expect(planFrames({ frames: 2, shots: shotNames, seed: 1 }).map(({ shot }) => shot)).toEqual([
    'mug',
    'jug',
  ]);
});

test('the same seed plans the same frames; no two frames share their noise', () => {
  const plan = planFrames({ frames: 40, shots: shotNames, seed: 9 });
  expect(planFrames({ frames: 40, shots: shotNames, seed: 9 })).toEqual(plan);
  expect(new Set(plan.map(({ noiseSeed }) => noiseSeed)).size).toBe(40);
  expect(Math.max(...plan.map(({ exposureEv }) => Math.abs(exposureEv)))).toBeLessThanOrEqual(0.03);
});

test('a fault stands on the frame it was ordered for, and nothing else about the plan changes', () => {
  const options = { frames: 4, shots: ['mug', 'jug'] as const, seed: 1 };
  const plan = planFrames({ ...options, faults: [{ name: 'strobe', value: null, frames: [3] }] });
  expect(plan.map(({ faults }) => faults.map(({ name }) => name))).toEqual([[], [], ['strobe'], []]);
  expect(plan.map((recipe) => ({ ...recipe, faults: [] }))).toEqual(planFrames(options));
});

test('nothing changes on the set within a burst, and the last one is shorter where frames do not come out even', () => {
  const plan = planFrames({ frames: 17, shots: ['mug', 'jug', 'bowl'], seed: 1, burst: 4 });
  const bursts = [0, 4, 8, 12, 16].map((start) =>
    plan.slice(start, start + 4).map(({ shot, purpose }) => `${shot} ${purpose}`),
  );
  expect(bursts).toEqual([
    Array(4).fill('mug target'),
    Array(4).fill('mug picture'),
    Array(4).fill('jug target'),
    Array(4).fill('jug picture'),
    ['bowl target'],
  ]);
});
