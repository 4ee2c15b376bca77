import { expect, test } from 'vitest';
import { frameSentence } from '../../words/index.ts';
import { worstJudgement } from '../set/worst-judgement.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { settledOf, verdictsWithSettled } from './settled.ts';

const lost = {
  judgement: 'bad',
  findings: [{ code: 'exposed.lost', args: { percent: 32 } }],
  figure: null,
} as const;
const whole = {
  judgement: 'good',
  findings: [{ code: 'arrived.whole', args: { bytes: 1000, ms: 0, places: 2 } }],
  figure: null,
} as const;

test('a slate, or another test, calls nobody by its pixels; whether it arrived is asked of it', () => {
  const plain = sampleFrame('f', 0);
  const verdicts = {
    ...plain.verdicts,
    arrived: { ...whole, findings: [...whole.findings] },
    exposed: { ...lost, findings: [...lost.findings] },
  };
  const picture = { ...plain, verdicts };
  const slate = { ...picture, purpose: 'test' } as const;
  expect(worstJudgement(picture)).toBe('bad');
  expect(worstJudgement(slate)).toBe('good');
  expect(settledOf(slate, 'exposed')).toBe('not-asked');
  expect(frameSentence(verdictsWithSettled(slate))).toMatch(/Nothing else is asked of a test\.$/);
  const cut = { ...slate, verdicts: { ...verdicts, arrived: { ...verdicts.exposed } } };
  expect(worstJudgement(cut)).toBe('bad');
});
