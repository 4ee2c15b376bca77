import { expect, test } from 'vitest';
import type { FrameRow } from '../register/index.ts';
import { ActBook } from './jobs/act-book.ts';
import { JobBook } from './jobs/job-book.ts';
import { type ManyFramesOptions, markFrames, takeIn } from './many-frames.ts';
import { oneAtATime } from './turn.ts';

const who = { scope: 'operator', name: 'operator' } as const;
const row = (id: string): FrameRow =>
  ({
    ...{ id, name: id, job: 'A', shot: 'mug', mark: 'none', purpose: 'picture', placedBy: 'arrival' },
    ...{ spot: null, look: null, share: null, slate: null, acceptances: [], files: [{}] },
  }) as unknown as FrameRow;

/** `told` is what the pages are told, each settled by hand. */
async function deskOf(frames: readonly string[]) {
  let ids = 0;
  const jobs = await JobBook.load({ appendTogether: async () => [] }, { jobs: async () => [] }, { code: '' });
  const words = { title: '', client: '', fromDate: null, toDate: null, place: '', notes: '' };
  await jobs.choose([{ type: 'job-described', job: 'A', ...words }], null);
  const acts = new ActBook(
    () => 1,
    () => `act-${++ids}`,
  );
  const told: { readonly frames: readonly string[]; readonly settle: () => void }[] = [];
  const options: ManyFramesOptions = {
    jobs,
    acts,
    inTurn: oneAtATime(),
    flow: {
      changedAll: (some) => new Promise((settle) => told.push({ frames: some, settle: () => settle() })),
    },
    book: {
      rowsNamed: async function* (named) {
        for (const id of [...named].sort()) if (frames.includes(id)) yield row(id);
      },
    },
  };
  return { options, acts, told };
}

test('what others choose does not wait until the pages are told of a change of many', async () => {
  const { options, acts, told } = await deskOf(['f1', 'f2', 'f3']);
  const marking = markFrames(options, { frames: ['f2', 'f1', 'f2'], mark: 'out' }, who);
  await expect.poll(() => told.length).toBe(1);
  expect(told[0]?.frames).toEqual(['f2', 'f1']);
  const moving = takeIn(options, 'A', { frames: ['f3'], shot: null }, who);
  await expect.poll(() => acts.all().length).toBe(2);
  await expect.poll(() => told.length).toBe(2);
  for (const { settle } of told) settle();
  expect(await marking).toEqual({ marked: 2, meanwhile: [] });
  expect(await moving).toBe(1);
});

test('frames that are moved in parts are one act, told with all of them, and none is moved once that was taken back', async () => {
  const { options, acts, told } = await deskOf(['f1', 'f2', 'f3']);
  const part = async (frames: string[]): Promise<number | null> => {
    const moved = takeIn(options, 'A', { frames, shot: null, act: 'one-act-0001' }, who);
    await expect.poll(() => told.length).toBe(1);
    told.pop()?.settle();
    return moved;
  };
  await part(['f1']);
  await part(['f2', 'f3']);
  expect(acts.all().map(({ what }) => what)).toEqual([{ code: 'job.frames-to-no-shot', args: { count: 3 } }]);
  const [act] = acts.all();
  if (act !== undefined) acts.takenBack(act, who);
  const late = takeIn(options, 'A', { frames: ['f1'], shot: null, act: 'one-act-0001' }, who);
  await expect(late).rejects.toMatchObject({ code: 'act-taken-back' });
});

test('where one of many is not there, none is changed', async () => {
  const { options, acts } = await deskOf(['f1']);
  const marking = markFrames(options, { frames: ['f1', 'gone'], mark: 'out' }, who);
  await expect(marking).rejects.toMatchObject({ code: 'no-frame' });
  expect(acts.all()).toEqual([]);
});
