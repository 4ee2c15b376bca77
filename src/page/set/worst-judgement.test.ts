import { expect, test } from 'vitest';
import type { Frame } from '../../contract/index.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { worstJudgement } from './worst-judgement.ts';

const cannot = (code: string): Frame['picture'] => ({
  state: 'cannot',
  reason: { code, args: { name: 'A' } },
  preview: false,
  width: null,
  height: null,
  orientation: null,
  version: 1,
});
const { verdicts } = sampleFrame('a', 0);
const unproved = { ...verdicts, arrived: { ...verdicts.arrived, judgement: 'unknown' as const } };

test.each(['picture.not-a-picture', 'picture.unknown-kind'])(
  'a file that is no picture (%s) has the sign of its arrival: nothing is doubtful about it',
  (code) => {
    const frame = sampleFrame('a', 0, { picture: cannot(code), verdicts: unproved });
    expect(worstJudgement(frame)).toBe('unknown');
  },
);

test('a picture that should be shown and cannot be is a doubt', () => {
  const frame = sampleFrame('a', 0, { picture: cannot('picture.cannot-develop') });
  expect(worstJudgement(frame)).toBe('doubt');
});

test('a frame stands by what is open: accepted where somebody took it, good where the shot does not speak of it', () => {
  const soft = { ...verdicts, sharp: { ...verdicts.sharp, judgement: 'doubt' as const } };
  const acceptance = { question: 'sharp', judgement: 'doubt', name: 'Ada', reason: 'meant so' } as const;
  const acceptances = [{ ...acceptance, at: '2031-04-06T12:00:00Z', covers: true }];
  expect(worstJudgement(sampleFrame('a', 0, { verdicts: soft }))).toBe('doubt');
  expect(worstJudgement(sampleFrame('a', 0, { verdicts: soft, acceptances }))).toBe('accepted');
  expect(worstJudgement(sampleFrame('a', 0, { verdicts: soft, mutes: ['sharp'] }))).toBe('good');
  const worse = { ...soft, exposed: { ...verdicts.exposed, judgement: 'bad' as const } };
  expect(worstJudgement(sampleFrame('a', 0, { verdicts: worse, acceptances }))).toBe('bad');
});
