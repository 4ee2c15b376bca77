import { expect, test } from 'vitest';
import { applyJobChoice, type JobChoice, type Jobs, plainShot } from '../../job/index.ts';
import { withWordsMoved } from './words-moved.ts';

const code = 'QM-26';
const stated = (id: string, name: string): JobChoice => ({
  type: 'shot-stated',
  job: code,
  shot: plainShot(id, name),
});

function made(metadata: string, ...choices: readonly JobChoice[]): Jobs {
  const described: JobChoice = {
    type: 'job-described',
    job: code,
    title: '',
    client: '',
    fromDate: null,
    toDate: null,
    place: '',
    notes: '',
  };
  const handOver: JobChoice = {
    type: 'job-hand-over-set',
    job: code,
    naming: '{job}_{counter}',
    look: null,
    deliveries: ['print'],
    metadata,
  };
  return [described, handOver, ...choices].reduce<Jobs>(applyJobChoice, new Map());
}

const words = (shots: Record<string, unknown>): string =>
  JSON.stringify({ version: 1, title: 'x', all: {}, shots, frames: {} }, null, 2);

test('a shot that is renamed takes its words along, and nothing else of the hand-over changes', () => {
  const jobs = made(words({ Mug: { caption: 'a' } }), stated('mug', 'Mug'), stated('plate', 'Plate'));
  const choices = withWordsMoved(jobs, [stated('mug', 'Cup')]);
  expect(choices.map(({ type }) => type)).toEqual(['shot-stated', 'job-hand-over-set']);
  expect(choices[1]).toMatchObject({ naming: '{job}_{counter}', deliveries: ['print'] });
  const { handOver } = choices.reduce<Jobs>(applyJobChoice, jobs).get(code) ?? {};
  expect(JSON.parse(handOver?.metadata ?? '')).toMatchObject({ shots: { Cup: { caption: 'a' } } });
});

test('two that swap their names in one list swap their words', () => {
  const jobs = made(
    words({ Mug: { caption: 'a' }, Plate: { caption: 'b' } }),
    stated('mug', 'Mug'),
    stated('plate', 'Plate'),
  );
  const after = withWordsMoved(jobs, [stated('mug', 'Plate'), stated('plate', 'Mug')])
    .reduce<Jobs>(applyJobChoice, jobs)
    .get(code);
  expect(JSON.parse(after?.handOver.metadata ?? '')).toMatchObject({
    shots: { Plate: { caption: 'a' }, Mug: { caption: 'b' } },
  });
});

test('another shot of the old name keeps the words', () => {
  const jobs = made(words({ Mug: { caption: 'a' } }), stated('mug', 'Mug'), stated('mug-2', 'Mug'));
  const after = withWordsMoved(jobs, [stated('mug', 'Cup')])
    .reduce<Jobs>(applyJobChoice, jobs)
    .get(code);
  expect(Object.keys(JSON.parse(after?.handOver.metadata ?? '').shots)).toEqual(['Mug', 'Cup']);
});

test('a shot of the same id in another job is another shot', () => {
  const jobs = made(words({ Mug: { caption: 'a' } }), stated('mug', 'Mug'), stated('plate', 'Plate'));
  const elsewhere: JobChoice = { type: 'shot-stated', job: 'QM-27', shot: plainShot('mug', 'Cup') };
  const choices = [elsewhere, stated('plate', 'Dish')];
  expect(withWordsMoved(jobs, choices)).toEqual(choices);
});

test('nothing is added where no name changes, the shot is new, or nobody said anything', () => {
  const jobs = made(words({ Mug: { caption: 'a' } }), stated('mug', 'Mug'));
  for (const choice of [stated('mug', 'Mug'), stated('new', 'Bowl')])
    expect(withWordsMoved(jobs, [choice])).toEqual([choice]);
  expect(withWordsMoved(made('', stated('mug', 'Mug')), [stated('mug', 'Cup')])).toHaveLength(1);
});
