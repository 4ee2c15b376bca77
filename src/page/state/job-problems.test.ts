import { expect, test } from 'vitest';
import { sampleJob } from '../../contract/testing/sample-job.ts';
import { knownCodes } from '../../words/index.ts';
import { sampleFrame, sampleStation } from '../testing/sample-frame.ts';
import { jobProblems } from './job-problems.ts';

const station = sampleStation();
const today = station.now.slice(0, 10);

test('a job that nothing is wrong with has no problems, and a closed one never', () => {
  const shots = [{ id: 'mug', name: 'Mug', camera: 'cam1' }];
  const target = sampleFrame('t', 0, { purpose: 'target' });
  const job = sampleJob({ state: 'open', currentShot: 'mug', to: today, shots });
  expect(jobProblems(job, station, [target])).toEqual([]);
  expect(jobProblems(sampleJob({ state: 'closed' }), station, [])).toEqual([]);
});

test('each thing that would go wrong is named, by a code that has a sentence', () => {
  const [camera] = station.cameras;
  if (camera === undefined) throw new Error('expected the sample station to have a camera');
  const ended = sampleStation({ cameras: [camera, { ...camera, name: 'cam2', ended: true }] });
  const job = sampleJob({
    state: 'open',
    to: '2031-05-05',
    shots: [
      { id: 'a', name: 'Mug', camera: 'cam9' },
      { id: 'b', name: 'Mug', camera: 'cam2', mutes: ['sharp'], reference: 'r' },
    ],
  });
  const problems = jobProblems(job, ended, [sampleFrame('r', 0, { mark: 'out' })]);
  expect(problems).toEqual([
    { code: 'job.problem-no-current', args: {} },
    { code: 'job.problem-day-over', args: { to: '2031-05-05' } },
    { code: 'job.problem-camera-unknown', args: { shot: 'Mug (a)', camera: 'cam9' } },
    { code: 'job.problem-camera-ended', args: { shot: 'Mug (b)', camera: 'cam2' } },
    { code: 'job.problem-required-and-muted', args: { shot: 'Mug (b)', question: 'sharp' } },
    { code: 'job.problem-reference-out', args: { shot: 'Mug (b)' } },
    { code: 'job.problem-name-twice', args: { name: 'Mug', count: 2, numbers: '1, 2' } },
    { code: 'job.problem-no-target', args: {} },
  ]);
  const noShots = jobProblems(sampleJob(), sampleStation({ secondPlaces: [] }), []);
  expect(noShots.map(({ code }) => code)).toEqual(['job.problem-no-shots', 'page.one-place']);
  for (const { code } of [...problems, ...noShots]) expect(knownCodes()).toContain(code);
});

test('a look that is asked for and not kept is named once, whoever asks', () => {
  const shots = [
    { id: 'a', look: 'Dusk' },
    { id: 'b', look: 'Dusk' },
  ];
  const job = sampleJob({ look: 'Silver', shots });
  const named = (of: typeof job): unknown[] =>
    jobProblems(of, station, []).filter(({ code }) => code === 'job.look-not-kept');
  expect(named(job)).toEqual([
    { code: 'job.look-not-kept', args: { name: 'Silver' } },
    { code: 'job.look-not-kept', args: { name: 'Dusk' } },
  ]);
  expect(named({ ...job, lookId: 'l1', shots: [] })).toEqual([]);
  expect(knownCodes()).toContain('job.look-not-kept');
});

test('a last day ends at midnight where the page is seen, not in UTC', () => {
  const job = sampleJob({ state: 'open', to: '2031-05-05', shots: [{ id: 'a' }], currentShot: 'a' });
  // Local times by their parts: whatever zone this runs in, one minute lies on either side of its midnight.
  const codesAt = (now: Date): string[] =>
    jobProblems(job, sampleStation({ now: now.toISOString() }), []).map(({ code }) => code);
  expect(codesAt(new Date(2031, 4, 5, 23, 59))).not.toContain('job.problem-day-over');
  expect(codesAt(new Date(2031, 4, 6, 0, 1))).toContain('job.problem-day-over');
});
