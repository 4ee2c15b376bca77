import { expect, test } from 'vitest';
import { type Frame, plainClientScreen } from '../../contract/index.ts';
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
const holding = (job: string, held: string | null) =>
  new Map([[job, { ...plainClientScreen(job), frame: held }]]);
const shown = (frames: readonly Frame[], currentShot: string | null, held: string | null = null) =>
  clientFrame({ frames: frameListOf(frames), jobs: jobs(currentShot), client: holding('QM-26', held) })?.id ??
  null;

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

test('where no job is open the client sees what came since, and nothing of a job that is closed', () => {
  const client = holding('unsorted', 'a');
  const tray = { ...frame('t', 30, null), job: 'unsorted' };
  const closed = [sampleJob({ code: 'QM-26', state: 'closed', shots: [{ id: 'mug' }] })];
  const of = (frames: readonly Frame[]) =>
    clientFrame({ frames: frameListOf(frames), jobs: closed, client })?.id ?? null;
  expect(of([frame('a', 0, 'mug'), tray, frame('b', 40, 'mug')])).toBe('t');
  expect(of([frame('a', 0, 'mug')])).toBeNull();
});

test('what is held in one job is not shown in the next, and is there again when the first is opened', () => {
  const frames = frameListOf([frame('a', 0, 'mug'), frame('b', 10, 'mug')]);
  const client = holding('QM-26', 'a');
  expect(clientFrame({ frames, jobs: [sampleJob({ code: 'OTHER', state: 'open' })], client })).toBeNull();
  expect(clientFrame({ frames, jobs: jobs('mug'), client })?.id).toBe('a');
  expect(clientFrame({ frames, jobs: null, client })).toBeNull();
});
