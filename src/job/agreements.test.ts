import { expect, test } from 'vitest';
import { errorCode } from '../base/index.ts';
import type { GivenAgreement, SeenPicture, Speaker } from '../facts/index.ts';
import { type AgreeingDevice, planAgreement as planOn, planWithdrawal } from './agreements.ts';
import { applyJobChoice } from './apply-choice.ts';
import type { JobChoice } from './choice.ts';
import { type Job, type Jobs, plainShot } from './job.ts';
import { agreementsOfShotMax } from './limits.ts';
import { inverseOfJobChoices } from './undo.ts';

const ada: Speaker = { name: 'Ada', from: 'guest', link: 'tablet' };
const ben: Speaker = { name: 'Ben', from: 'guest', link: 'phone' };
const hero: SeenPicture = { frame: 'f', look: 'l1', profile: null };
const word = (parts: Partial<GivenAgreement> = {}): GivenAgreement => ({
  id: 'a1',
  shot: 'mug',
  pictures: [hero],
  by: ada,
  atMs: 5,
  ...parts,
});

function made(...choices: readonly JobChoice[]): { jobs: Jobs; job: Job } {
  const words = { title: '', client: '', fromDate: null, toDate: null, place: '', notes: '' };
  const base: readonly JobChoice[] = [
    { type: 'job-described', job: 'A', ...words },
    { type: 'shot-stated', job: 'A', shot: plainShot('mug', 'Mug') },
    { type: 'shot-stated', job: 'A', shot: { ...plainShot('jug', 'Jug'), hidden: true } },
  ];
  const jobs = [...base, ...choices].reduce(applyJobChoice, new Map<string, Job>());
  const job = jobs.get('A');
  if (job === undefined) throw new Error('it was made above');
  return { jobs, job };
}

/** On the device that gave all that was given before. */
const planAgreement = (
  job: Job,
  agreement: GivenAgreement,
  heroes: readonly SeenPicture[],
  device: AgreeingDevice = { gaveIt: () => true, again: false },
): JobChoice[] => planOn(job, agreement, heroes, device);

function refusal(plan: () => unknown): string {
  try {
    plan();
    return 'none';
  } catch (thrown) {
    return String(errorCode(thrown));
  }
}

test('a word on the heroes of a shot stands with who, when and which pictures, in a closed job too', () => {
  const closed = made({ type: 'job-state-set', job: 'A', state: 'closed' }).job;
  expect(planAgreement(closed, word(), [hero])).toEqual([{ type: 'agreed', job: 'A', agreement: word() }]);
  expect(made({ type: 'agreed', job: 'A', agreement: word() }).job.agreements).toEqual([word()]);
});

test('sent twice it counts once; under the id of something else it is refused', () => {
  const { job } = made({ type: 'agreed', job: 'A', agreement: word() });
  expect(planAgreement(job, word({ atMs: 9 }), [])).toEqual([]);
  expect(refusal(() => planAgreement(job, word({ by: ben }), [hero]))).toBe('id-taken');
  expect(refusal(() => planAgreement(job, word({ pictures: [{ ...hero, look: 'l2' }] }), [hero]))).toBe(
    'id-taken',
  );
});

test('nobody agrees to what they have not seen, to nothing, or to a shot that is not listed', () => {
  const { job } = made();
  expect(refusal(() => planAgreement(job, word(), []))).toBe('nothing-to-agree');
  expect(refusal(() => planAgreement(job, word(), [{ ...hero, look: 'l2' }]))).toBe('picture-changed');
  expect(refusal(() => planAgreement(job, word(), [hero, { ...hero, frame: 'g' }]))).toBe('picture-changed');
  expect(refusal(() => planAgreement(job, word({ shot: 'jug' }), [hero]))).toBe('no-shot');
  expect(refusal(() => planAgreement(job, word(), [hero]))).toBe('none');
});

test('whoever agrees again replaces their own word; two guests of one link are two', () => {
  const { job } = made(
    { type: 'agreed', job: 'A', agreement: word() },
    { type: 'agreed', job: 'A', agreement: word({ id: 'a2', by: { ...ada, name: 'Eve' } }) },
    { type: 'agreed', job: 'A', agreement: word({ id: 'a3', atMs: 8 }) },
  );
  expect(job.agreements.map(({ id }) => id)).toEqual(['a2', 'a3']);
});

test('the same name on another device is no second word of the same person, unless they say so', () => {
  const { job } = made({ type: 'agreed', job: 'A', agreement: word() });
  const other = { gaveIt: () => false, again: false };
  expect(refusal(() => planAgreement(job, word({ id: 'a2' }), [hero], other))).toBe('name-taken');
  expect(planAgreement(job, word({ id: 'a2' }), [hero], { ...other, again: true })).toHaveLength(1);
  expect(planAgreement(job, word({ id: 'a2', by: { ...ada, name: 'Eve' } }), [hero], other)).toHaveLength(1);
});

test('a word is taken back by whoever gave it or the operator; twice is once', () => {
  const { job } = made({ type: 'agreed', job: 'A', agreement: word() });
  expect(refusal(() => planWithdrawal(job, 'a1', false))).toBe('not-yours');
  expect(planWithdrawal(job, 'a1', true)).toHaveLength(1);
  expect(planWithdrawal(job, 'a9', false)).toEqual([]);
});

test('a shot takes so many words and not one more; one’s own is replaced even then', () => {
  const full = Array.from(
    { length: agreementsOfShotMax },
    (_, index): JobChoice => ({
      type: 'agreed',
      job: 'A',
      agreement: word({ id: `n${index}`, by: { ...ada, name: `Guest ${index}` } }),
    }),
  );
  const { job } = made(...full);
  expect(refusal(() => planAgreement(job, word(), [hero]))).toBe('too-many-agreements');
  const own = word({ by: { ...ada, name: 'Guest 3' } });
  expect(planAgreement(job, own, [hero])).toHaveLength(1);
  expect(planAgreement(made(...full.slice(1)).job, word(), [hero])).toHaveLength(1);
});

test('what was replaced or taken back stands again once that is taken back', () => {
  const first: JobChoice = { type: 'agreed', job: 'A', agreement: word() };
  for (const later of [
    { type: 'agreed', job: 'A', agreement: word({ id: 'a2' }) },
    { type: 'agreement-withdrawn', job: 'A', agreement: 'a1' },
  ] as const) {
    const back = inverseOfJobChoices(made(first).jobs, [later]);
    expect(made(first, later).job.agreements).not.toEqual([word()]);
    expect(made(first, later, ...back).job.agreements).toEqual([word()]);
  }
});
