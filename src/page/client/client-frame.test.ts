import { expect, test } from 'vitest';
import type { Frame } from '../../contract/index.ts';
import { sampleJob } from '../../contract/testing/sample-job.ts';
import { frameListOf } from '../state/frame-list.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { clientFrame } from './client-frame.ts';

const frame = (id: string, second: number, shot: string | null, part: Partial<Frame> = {}): Frame => ({
  ...sampleFrame(id, second, part),
  job: 'QM-26',
  shot,
});
const jobs = (currentShot: string | null) => [
  sampleJob({ code: 'QM-26', state: 'open', currentShot, shots: [{ id: 'mug' }, { id: 'jug' }] }),
];
const shown = (frames: readonly Frame[], currentShot: string | null, held: string | null = null) =>
  clientFrame({ frames: frameListOf(frames), jobs: jobs(currentShot) }, held)?.id ?? null;

test('the client sees the newest of the shot that is shot now, whatever came in beside it', () => {
  const frames = [frame('a', 0, 'mug'), frame('b', 10, 'mug'), frame('c', 20, 'jug')];
  expect(shown(frames, 'mug')).toBe('b');
  expect(shown(frames, null)).toBe('c');
});

test('tests, targets, what is out and what cannot be shown are not for the client', () => {
  const frames = [
    frame('a', 0, 'mug'),
    frame('b', 10, 'mug', { purpose: 'target' }),
    frame('c', 20, 'mug', { mark: 'out' }),
    frame('d', 30, 'mug', { picture: { state: 'none' } }),
  ];
  expect(shown(frames, 'mug')).toBe('a');
});

test('a shot that was just begun shows the one before until its first frame is here', () => {
  expect(shown([frame('a', 0, 'mug')], 'jug')).toBe('a');
});

test('what the Sheet page holds stays until it is let go, or is gone', () => {
  const frames = [frame('a', 0, 'mug'), frame('b', 10, 'mug')];
  expect(shown(frames, 'mug', 'a')).toBe('a');
  expect(shown(frames, 'mug', 'gone')).toBe('b');
});

test('what was held of another job, or was put aside since, is not shown', () => {
  const other = { ...frame('x', 5, 'mug'), job: 'OTHER' };
  const frames = [frame('a', 0, 'mug'), other, frame('o', 7, 'mug', { mark: 'out' }), frame('b', 10, 'mug')];
  expect([shown(frames, 'mug', 'a'), shown(frames, 'mug', 'x'), shown(frames, 'mug', 'o')]).toEqual([
    'a',
    'b',
    'b',
  ]);
});
