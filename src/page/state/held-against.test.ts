import { expect, test } from 'vitest';
import type { Job, Shot } from '../../contract/index.ts';
import { sampleJob } from '../../contract/testing/sample-job.ts';
import { sampleFrame, sampleInstant } from '../testing/sample-frame.ts';
import { heldAgainst } from './held-against.ts';

const frame = sampleFrame('f5', 100, { job: 'QM-26', shot: 's1' });
const jobWith = (change: Partial<Shot>): Job[] => [
  sampleJob({ code: 'QM-26', shots: [{ id: 's1', ...change }] }),
];

test('the newest baseline up to the frame stands before the reference, a later one does not', () => {
  const baselines = [
    { frame: 'b1', from: sampleInstant(10) },
    { frame: 'b2', from: sampleInstant(90) },
    { frame: 'b3', from: sampleInstant(110) },
  ];
  expect(heldAgainst(jobWith({ reference: 'r', baselines }), frame)).toEqual({ kind: 'frame', id: 'b2' });
  expect(heldAgainst(jobWith({ reference: 'r' }), frame)).toEqual({ kind: 'frame', id: 'r' });
});

test('the reference itself is held against the layout, where there is one', () => {
  const layout = { kind: 'layout', job: 'QM-26', shot: 's1', layout: 'l1' };
  expect(heldAgainst(jobWith({ reference: 'f5', layout: 'l1' }), frame)).toEqual(layout);
  expect(heldAgainst(jobWith({ reference: 'f5' }), frame)).toBeNull();
  expect(heldAgainst(null, frame)).toBeNull();
});
