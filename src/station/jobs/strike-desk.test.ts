import { expect, test } from 'vitest';
import { plainShot } from '../../job/index.ts';
import { oneAtATime } from '../turn.ts';
import { ActBook } from './act-book.ts';
import { JobBook } from './job-book.ts';
import { createStrikeDesk, type StrikeDeskOptions } from './strike-desk.ts';

test('what somebody says for a check reads the frames once, and holds nobody up while it does', async () => {
  const words = { title: '', client: '', fromDate: null, toDate: null, place: '', notes: '' };
  const keep = { appendTogether: async () => [] } as unknown as Parameters<typeof JobBook.load>[0];
  const jobs = await JobBook.load(keep, { jobs: async () => [] }, { code: 'unsorted' });
  await jobs.choose(
    [
      { type: 'job-described', job: 'POTS', ...words },
      { type: 'shot-stated', job: 'POTS', shot: { ...plainShot('mug', 'Mug'), heroes: 0, requires: [] } },
    ],
    null,
  );
  let isTaken = false;
  const read: string[] = [];
  const turn = oneAtATime();
  const desk = createStrikeDesk({
    jobs,
    looks: { looks: () => [] },
    acts: new ActBook(
      () => 5,
      () => 'act',
    ),
    tell: async () => undefined,
    inTurn: <T>(work: () => Promise<T>): Promise<T> =>
      turn(async () => {
        isTaken = true;
        return work().finally(() => {
          isTaken = false;
        });
      }),
    book: {
      // biome-ignore lint/correctness/useYield: the job has no frames
      everyBrief: async function* ({ job = '' } = {}) {
        read.push(isTaken ? `${job} in the turn` : job);
      },
      countedFiles: () => [],
      framesNamed: async function* () {},
    },
    agreements: async () => new Map(),
    secondPlaces: () => 1,
    cardNumbers: () => [],
    now: () => 5,
  } as unknown as StrikeDeskOptions);
  const who = { scope: 'operator', name: 'operator' } as const;
  const seen = await desk.strike('POTS');
  expect(read).toEqual(['POTS']);
  const signed = await desk.sign(
    'POTS',
    { name: 'Ann', state: seen?.state ?? '' },
    { who, ifVersion: 'any' },
  );
  expect(signed?.signed).toMatchObject({ name: 'Ann', stands: true });
  expect(read).toEqual(['POTS', 'POTS']);
});
