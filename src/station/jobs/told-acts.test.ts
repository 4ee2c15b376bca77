import { afterEach, expect, test } from 'vitest';
import type { ChosenEntry } from '../../keep/index.ts';
import { actPhrase } from '../../words/index.ts';
import { ActBook, type UndoneAct } from './act-book.ts';
import { type ToldActsOptions, toldActs } from './told-acts.ts';

const entry = (atMs: number, choice: object, count = 1): ChosenEntry =>
  ({ record: { v: 6, seq: 1, group: 1, atMs, ...choice }, count }) as unknown as ChosenEntry;

let undone: readonly UndoneAct[] = [];
afterEach(() => {
  undone = [];
});

const told = async (...entries: readonly ChosenEntry[]): Promise<string[]> => {
  const options: ToldActsOptions = {
    keep: { chosenLately: () => entries },
    book: { row: async (id) => ({ name: `${id}.DNG`, job: 'A' }) },
    jobs: { jobs: () => new Map() },
    looks: { looks: () => new Map() },
    acts: { undone: () => undone },
    startedMs: 1000,
  };
  return (await toldActs(options)).map(({ by, what, takenBack }) =>
    [
      `${by}: ${actPhrase(what)}`,
      ...(takenBack === null ? [] : [`taken back by ${takenBack.by} at ${takenBack.at}`]),
    ].join(', '),
  );
};

test('what was chosen before this start is told with whose hand it was, the newest first', async () => {
  const mark = { type: 'mark-set', frame: 'F1', mark: 'hero' };
  expect(
    await told(
      entry(1, { ...mark, who: 'operator' }),
      entry(2, { ...mark, who: 'Studio tablet' }, 300),
      entry(3, { type: 'shot-set', frame: 'F1', shot: 'mug', who: 'operator' }, 2),
      entry(4, { type: 'share-set', frame: 'F1', share: 'shown', who: 'operator' }, 5),
      entry(5, { type: 'job-state-set', job: 'A', state: 'closed', who: 'operator' }),
    ),
  ).toEqual([
    'operator: closed job “A”',
    'operator: changed 5 frames',
    'operator: moved 2 frames to mug',
    'Studio tablet: marked 300 frames hero',
    'operator: marked F1 hero',
  ]);
});

test('what people said by name is told whenever it was, what can be taken back is not told twice', async () => {
  const by = { name: 'Mara', from: 'guest', link: 'Client' };
  const remark = { id: 'r', at: null, text: 'x', inside: false, by };
  expect(
    await told(
      entry(2000, { type: 'mark-set', frame: 'F1', mark: 'hero', who: 'operator' }),
      entry(2001, { type: 'remark-made', frame: 'F1', remark, who: 'Client' }),
      entry(2002, {
        type: 'agreed',
        job: 'A',
        agreement: { id: 'a', shot: 'mug', pictures: [], by, atMs: 1 },
      }),
    ),
  ).toEqual(['Mara: agreed to mug', 'Mara: remarked on F1']);
});

test('what was taken back since the start is told in its place, with who took it back, until it is put back', async () => {
  let nowMs = 2000;
  const acts = new ActBook(
    () => nowMs,
    () => 'act-1',
  );
  const choice = { type: 'mark-set', frame: 'F2', mark: 'out' } as const;
  const what = { code: 'job.frame-marked', args: { name: 'F2.DNG', mark: 'out' } };
  acts.note({ name: 'Studio tablet' }, what, [choice], [{ ...choice, mark: 'none' }]);
  nowMs = 5000;
  const act = acts.find(undefined);
  acts.takenBack(act, { name: 'operator' });
  undone = acts.undone();
  const by = { name: 'Mara', from: 'guest', link: 'Client' };
  const said = (atMs: number, id: string): ChosenEntry =>
    entry(atMs, { type: 'agreed', job: 'A', agreement: { id, shot: 'mug', pictures: [], by, atMs } });
  expect(await told(said(1500, 'a'), said(3000, 'b'))).toEqual([
    'Mara: agreed to mug',
    'Studio tablet: marked F2 out, taken back by operator at 1970-01-01T00:00:05.000Z',
    'Mara: agreed to mug',
  ]);
  acts.putBack(act);
  undone = acts.undone();
  expect(await told(said(1500, 'a'))).toEqual(['Mara: agreed to mug']);
});
