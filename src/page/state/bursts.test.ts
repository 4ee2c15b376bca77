import { expect, test } from 'vitest';
import { sampleFrame } from '../testing/sample-frame.ts';
import { burstsOf } from './bursts.ts';

const at = (second: number, camera = 'cam1') => sampleFrame(`${camera} ${second}`, second, { camera });
const none = (): boolean => false;

test('four frames no more than a second apart are a burst, three are not', () => {
  expect(burstsOf([at(0), at(1), at(2), at(3)], none)).toMatchObject([{ camera: 'cam1' }]);
  expect(burstsOf([at(0), at(1), at(2)], none)).toEqual([]);
  expect(burstsOf([at(0), at(1), at(2), at(3.001)], none)).toEqual([]);
});

test('it holds its frames in order and knows its first and last moment', () => {
  const frames = [at(0), at(20), at(20.1), at(20.2), at(20.3), at(40)];
  const [burst] = burstsOf(frames, none);
  expect(burst?.frames).toEqual(frames.slice(1, 5));
  expect((burst?.toMs ?? 0) - (burst?.fromMs ?? 0)).toBe(300);
});

test('cameras that fire at the same time have bursts of their own', () => {
  const frames = [0, 1, 2, 3].flatMap((second) => [at(second), at(second + 0.5, 'cam2')]);
  expect(burstsOf(frames, none).map(({ camera }) => camera)).toEqual(['cam1', 'cam2']);
});

test('files that came quickly are no burst where no shutter says that they were shot so', () => {
  const withoutShutter = [0, 0.2, 0.4, 0.6].map((second) => {
    const frame = at(second);
    return { ...frame, times: { ...frame.times, shutter: null } };
  });
  expect(burstsOf(withoutShutter, none)).toEqual([]);
});

test('a frame that stands alone is in no burst and does not end one', () => {
  const frames = [0, 0.4, 0.8, 1.2, 1.6].map((second) => at(second));
  const [burst] = burstsOf(frames, (frame) => frame === frames[2]);
  expect(burst?.frames).toHaveLength(4);
  expect(burst?.frames).not.toContain(frames[2]);
});
