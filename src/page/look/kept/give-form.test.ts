import { expect, test } from 'vitest';
import { sampleJob } from '../../../contract/testing/sample-job.ts';
import { placesGiven, type Receiver } from './give-form.tsx';

const job = sampleJob({ code: 'kiln-07', shots: [{ id: 's1' }, { id: 's2' }] });
const chosen = (...receivers: readonly Receiver[]): ReadonlySet<Receiver> => new Set(receivers);

test('whatever is chosen is given in one call, which is one act and one undo', () => {
  const frame = { id: 'f1' };
  expect(placesGiven(chosen('frame'), frame, null)).toEqual({ frames: ['f1'] });
  expect(placesGiven(chosen('job'), frame, job)).toEqual({ job: 'kiln-07' });
  expect(placesGiven(chosen('shot s1', 'frame'), frame, job)).toEqual({
    ...{ job: 'kiln-07', shots: ['s1'], frames: ['f1'] },
  });
  expect(placesGiven(chosen('shot s2', 'job'), frame, job)).toEqual({
    job: 'kiln-07',
    whole: true,
    shots: ['s2'],
  });
  expect(placesGiven(chosen(), frame, job)).toBeNull();
  expect(placesGiven(chosen('shot gone'), frame, job)).toBeNull();
});
