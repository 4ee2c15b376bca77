import { expect, test } from 'vitest';
import { sampleJob } from '../../../contract/testing/sample-job.ts';
import { type Receiver, usesOf } from './give-form.tsx';

const job = sampleJob({ code: 'kiln-07', shots: [{ id: 's1' }, { id: 's2' }] });
const chosen = (...receivers: readonly Receiver[]): ReadonlySet<Receiver> => new Set(receivers);

test('shots and the frame are one act; the job’s own look is another, since shots in a call leave it alone', () => {
  const frame = { id: 'f1' };
  expect(usesOf(chosen('frame'), frame, null)).toEqual([{ frames: ['f1'] }]);
  expect(usesOf(chosen('shot s1', 'frame'), frame, job)).toEqual([
    { job: 'kiln-07', shots: ['s1'], frames: ['f1'] },
  ]);
  expect(usesOf(chosen('shot s2', 'job'), frame, job)).toEqual([
    { job: 'kiln-07', shots: ['s2'] },
    { job: 'kiln-07' },
  ]);
  expect(usesOf(chosen(), frame, job)).toEqual([]);
  expect(usesOf(chosen('shot gone'), frame, job)).toEqual([]);
});
