import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import { laneOfCamera, lanesOf, mustNameCamera, silentMs } from './lanes.ts';

const at = (camera: string, second: number) => sampleFrame(`${camera} ${second}`, second, { camera });
const hour = silentMs / 1000;

test('a camera that is silent for an hour gives its lane back, and its frames name it in the last one', () => {
  const lanes = lanesOf([at('anna', 0), at('bert', 5), at('carl', hour), at('bert', hour + 1)], 4);
  expect(lanes).toEqual({ cameras: ['bert', 'carl', 'anna'], shooting: 2, count: 2 });
  expect(laneOfCamera('anna', lanes)).toBe(1);
  expect(['anna', 'bert', 'carl'].map((camera) => mustNameCamera(camera, lanes))).toEqual([
    true,
    false,
    false,
  ]);
  expect(lanesOf([at('anna', 0), at('bert', hour)], 4).count).toBe(2);
});

test('cameras beyond the last lane share it and are named there; of no frames there is one lane', () => {
  const lanes = lanesOf([at('a', 0), at('b', 1), at('c', 2)], 2);
  expect(lanes.count).toBe(2);
  expect(['a', 'b', 'c'].map((camera) => laneOfCamera(camera, lanes))).toEqual([0, 1, 1]);
  expect(['a', 'b', 'c'].map((camera) => mustNameCamera(camera, lanes))).toEqual([false, true, true]);
  expect(lanesOf([], 4)).toEqual({ cameras: [], shooting: 0, count: 1 });
});
