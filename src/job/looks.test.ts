import { expect, test } from 'vitest';
import { defaultLook, type Look, lookHash } from '../look/index.ts';
import { applyJobChoice } from './apply-choice.ts';
import type { ChosenOfFrame, JobChoice } from './choice.ts';
import { isJobChoice } from './choice.ts';
import { type Jobs, plainShot } from './job.ts';
import { looksMax } from './limits.ts';
import { planWishesMet, withLooksFound } from './look-wishes.ts';
import {
  type KeptLook,
  type Looks,
  lookInForce,
  newestOfName,
  planLookAside,
  planLookSaved,
  versionsOfName,
} from './looks.ts';
import { planJobChange } from './plan-job.ts';
import { planLookUse } from './plan-look-use.ts';
import { planShotChange } from './plan-shot.ts';
import { inverseOfJobChoices, inverseOfLookChoices } from './undo.ts';

const evening = (exposureEv: number, title = 'Evening'): Look => ({ ...defaultLook, title, exposureEv });

function kept(id: string, version: number, parts: Partial<KeptLook> = {}): KeptLook {
  const document = parts.document ?? evening(version / 10, parts.name);
  return {
    ...{ id, name: document.title, version, hash: lookHash(document), document },
    ...{ savedMs: version, savedBy: 'operator', laidAside: false },
    ...parts,
  };
}

const looksOf = (...looks: readonly KeptLook[]): Looks => new Map(looks.map((look) => [look.id, look]));
const two = looksOf(kept('e1', 1), kept('e2', 2, { name: 'evening' }), kept('x1', 1, { name: 'Silver' }));

const made = (jobs: Jobs, ...choices: readonly JobChoice[]): Jobs => choices.reduce(applyJobChoice, jobs);
const described = (job: string): JobChoice => ({
  ...{ type: 'job-described', job, title: '', client: '' },
  ...{ fromDate: null, toDate: null, place: '', notes: '' },
});
const stated = (id: string, look: string | null, lookId?: string): JobChoice => ({
  type: 'shot-stated',
  job: 'A',
  shot: { ...plainShot(id, id), look, ...(lookId === undefined ? {} : { lookId }) },
});
const shotOf = (jobs: Jobs, id: string) => jobs.get('A')?.shots.find((shot) => shot.id === id);

test('versions are those of one name, however it is written, the newest first', () => {
  expect(versionsOfName(two, '  EVENING ').map(({ id }) => id)).toEqual(['e2', 'e1']);
  expect(newestOfName(two, 'Evening')?.id).toBe('e2');
  const aside = looksOf(kept('e1', 1), kept('e2', 2, { laidAside: true }));
  expect(newestOfName(aside, 'Evening')?.id).toBe('e1');
  expect(newestOfName(two, 'Morning')).toBeNull();
  // é as one character and as two (Unicode Standard Annex 15) is one name.
  const cafe = looksOf(kept('c1', 1, { name: 'Caf\u00e9' }));
  expect(newestOfName(cafe, 'Cafe\u0301')?.id).toBe('c1');
});

test('the same document is the version that is there, put back where it was laid aside; any other is the next one', () => {
  const newId = () => 'new';
  expect(planLookSaved(two, evening(0.1), 'Ada', newId)).toEqual({ look: 'e1', choices: [] });
  const aside = looksOf(kept('e1', 1, { laidAside: true }));
  expect(planLookSaved(aside, evening(0.1), 'Ada', newId)).toEqual({
    look: 'e1',
    choices: [{ type: 'look-aside-set', look: 'e1', aside: false }],
  });
  const document = { ...evening(0.1), description: 'Later.' };
  expect(planLookSaved(two, document, 'Ada', newId).choices).toEqual([
    // Of the same hash: a description changes no pixel.
    {
      type: 'look-saved',
      look: 'new',
      name: 'Evening',
      version: 3,
      hash: kept('e1', 1).hash,
      document,
      by: 'Ada',
    },
  ]);
});

test('so many versions are kept and no more; one that is there already is found all the same', () => {
  const many = (count: number) =>
    looksOf(
      ...Array.from({ length: count }, (_, index) => kept(`l${index}`, index + 1, { document: evening(0) })),
    );
  const save = (count: number, ev: number) => planLookSaved(many(count), evening(ev), 'Ada', () => 'new');
  expect(save(looksMax - 1, 1).choices).toHaveLength(1);
  expect(() => save(looksMax, 1)).toThrow(expect.objectContaining({ code: 'too-many-looks' }));
  expect(save(looksMax, 0).choices).toEqual([]);
});

test('a name is one line of text', () => {
  const save = (title: string) => () => planLookSaved(two, evening(1, title), 'Ada', () => 'new');
  expect(save('Dusk\n2')).toThrow(expect.objectContaining({ code: 'bad-words' }));
  expect(save('Dusk \u001b[31m')).toThrow(expect.objectContaining({ code: 'bad-words' }));
  expect(save('Dämmerung – 2')).not.toThrow();
});

test('laying aside twice is once, and what is taken back of a saving is that it is offered', () => {
  expect(planLookAside(two, 'e1', true)).toEqual([{ type: 'look-aside-set', look: 'e1', aside: true }]);
  expect(planLookAside(two, 'e1', false)).toEqual([]);
  expect(() => planLookAside(two, 'none', true)).toThrow(expect.objectContaining({ code: 'no-such-look' }));
  const { choices } = planLookSaved(two, evening(5), 'Ada', () => 'new');
  expect(inverseOfLookChoices(choices)).toEqual([{ type: 'look-aside-set', look: 'new', aside: true }]);
});

test('a name becomes the newest version of it as it is said; a version that was chosen, or a name of none, stays', () => {
  const said = [
    stated('a', 'EVENING'),
    stated('b', 'Evening', 'e1'),
    stated('c', 'Morning'),
    stated('d', null),
  ];
  const jobs = made(new Map(), described('A'), ...withLooksFound(two, said));
  expect(['a', 'b', 'c', 'd'].map((id) => shotOf(jobs, id)?.lookId)).toEqual([
    'e2',
    'e1',
    undefined,
    undefined,
  ]);
});

test('another name lets go of the version that was chosen; the same one, however it is written, does not', () => {
  const jobs = made(new Map(), described('A'), stated('a', 'Evening', 'e1'));
  const after = (look: string | null) => shotOf(made(jobs, ...planShotChange(jobs, 'A', 'a', { look })), 'a');
  expect(after('evening')).toMatchObject({ look: 'evening', lookId: 'e1' });
  expect(after('Silver')).not.toHaveProperty('lookId');
  expect(after(null)).not.toHaveProperty('lookId');
  const used = made(jobs, ...planJobChange(jobs, 'A', { handOver: { look: 'Evening', lookId: 'e1' } }));
  expect(used.get('A')?.handOver.lookId).toBe('e1');
  const named = (look: string) =>
    made(used, ...planJobChange(used, 'A', { handOver: { look } })).get('A')?.handOver;
  expect(named('EVENING')?.lookId).toBe('e1');
  expect(named('Silver')).not.toHaveProperty('lookId');
});

test('saved, a look meets every wish for its name in jobs that are not closed, and can be taken back', () => {
  let jobs = made(
    new Map(),
    described('A'),
    { type: 'job-hand-over-set', job: 'A', naming: 'n', look: 'evening', deliveries: [] },
    stated('a', 'EVENING'),
    stated('b', 'Evening', 'e1'),
    stated('c', 'Silver'),
  );
  const wishes = planWishesMet(jobs, { id: 'e3', name: 'Evening' });
  const met = made(jobs, ...wishes);
  expect(met.get('A')?.handOver).toMatchObject({ naming: 'n', look: 'evening', lookId: 'e3' });
  expect(['a', 'b', 'c'].map((id) => shotOf(met, id)?.lookId)).toEqual(['e3', 'e1', undefined]);
  const back = made(met, ...inverseOfJobChoices(jobs, wishes));
  expect(back.get('A')?.shots).toEqual(jobs.get('A')?.shots);
  expect(back.get('A')?.handOver).toEqual(jobs.get('A')?.handOver);
  jobs = made(jobs, { type: 'job-state-set', job: 'A', state: 'closed' });
  expect(planWishesMet(jobs, { id: 'e3', name: 'Evening' })).toEqual([]);
});

test('the frame’s own look stands before its shot’s before its job’s, and a wish before what comes behind it', () => {
  const handOver = (look: string | null, lookId?: string) => ({
    handOver: { naming: '', deliveries: [], look, ...(lookId === undefined ? {} : { lookId }) },
  });
  const shot = (look: string | null, lookId?: string) => ({
    look,
    ...(lookId === undefined ? {} : { lookId }),
  });
  const job = handOver('Evening', 'e1');
  expect(lookInForce(job, shot('Silver', 'x1'), 'e2')).toEqual({ id: 'e2', wish: null, from: 'frame' });
  expect(lookInForce(job, shot('Silver', 'x1'), null)).toEqual({ id: 'x1', wish: null, from: 'shot' });
  expect(lookInForce(job, shot('Morning'), null)).toEqual({ id: null, wish: 'Morning', from: 'shot' });
  expect(lookInForce(job, shot(null), null)).toEqual({ id: 'e1', wish: null, from: 'job' });
  expect(lookInForce(job, null, null)).toEqual({ id: 'e1', wish: null, from: 'job' });
  expect(lookInForce(handOver('Morning'), null, null)).toEqual({ id: null, wish: 'Morning', from: 'job' });
  expect(lookInForce(null, null, null)).toEqual({ id: null, wish: null, from: 'station' });
});

test('a look goes to a job, to shots and to frames in one go; those that have it make no choice; its inverse leads back', () => {
  const jobs = made(
    new Map(),
    described('A'),
    stated('a', 'Silver'),
    stated('b', null),
    stated('c', 'Evening', 'e2'),
  );
  const frame: ChosenOfFrame = {
    ...{ id: 'f', mark: 'none', job: 'A', shot: 'a', purpose: 'picture', spot: null },
    ...{ look: null, acceptances: [], share: null, placedBy: 'arrival', slate: null },
  };
  const look = { id: 'e2', name: 'Evening' };
  const choices = planLookUse(jobs, look, {
    ...{ job: 'A', whole: false },
    ...{ shots: ['a', 'b', 'c', 'a'], frames: [frame] },
  });
  expect(choices.map(({ type }) => type)).toEqual(['shot-stated', 'shot-stated', 'look-set']);
  const after = made(jobs, ...choices.filter(isJobChoice));
  expect(after.get('A')?.shots.map(({ look: name, lookId }) => [name, lookId])).toEqual(
    Array(3).fill(['Evening', 'e2']),
  );
  const back = made(after, ...inverseOfJobChoices(jobs, choices.filter(isJobChoice)));
  expect(back.get('A')?.shots).toEqual(jobs.get('A')?.shots);
  const own = planLookUse(jobs, look, {
    ...{ job: 'A', whole: true, shots: [] },
    frames: [{ ...frame, look: 'e2' }],
  });
  expect(own).toMatchObject([{ type: 'job-hand-over-set', look: 'Evening', lookId: 'e2' }]);
  const both = planLookUse(jobs, look, { job: 'A', whole: true, shots: ['a'], frames: [] });
  expect(both.map(({ type }) => type)).toEqual(['job-hand-over-set', 'shot-stated']);
  const bad = (shots: readonly string[]) => () =>
    planLookUse(jobs, look, { job: 'A', whole: false, shots, frames: [] });
  expect(bad(['a', 'nowhere'])).toThrow(expect.objectContaining({ code: 'no-shot' }));
  const closed = made(jobs, { type: 'job-state-set', job: 'A', state: 'closed' });
  expect(() => planLookUse(closed, look, { job: null, whole: true, shots: [], frames: [frame] })).toThrow(
    expect.objectContaining({ code: 'job-finished' }),
  );
});
