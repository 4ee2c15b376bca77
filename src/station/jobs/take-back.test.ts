import { beforeEach, expect, test } from 'vitest';
import { type Choice, inverseOfJobChoices, isJobChoice, type JobChoice, plainShot } from '../../job/index.ts';
import { ActBook } from './act-book.ts';
import { JobBook } from './job-book.ts';
import { putBack, type TakeBackOptions, undo } from './take-back.ts';

const made = (job: string): JobChoice => ({
  type: 'job-described',
  job,
  title: '',
  client: '',
  fromDate: null,
  toDate: null,
  place: '',
  notes: '',
});
const who = { name: 'operator' };
const closed: JobChoice = { type: 'job-state-set', job: 'A', state: 'closed' };
const mug: JobChoice = { type: 'shot-stated', job: 'A', shot: plainShot('mug', 'Mug') };

let options: TakeBackOptions;
let frameJob: string;

beforeEach(async () => {
  frameJob = 'unsorted';
  let ids = 0;
  const jobs = await JobBook.load({ appendTogether: async () => [] }, { jobs: async () => [] }, { code: '' });
  options = {
    jobs,
    acts: new ActBook(
      () => 1,
      () => `act-${++ids}`,
    ),
    book: { row: async () => ({ job: frameJob }) },
    flow: { changedAll: async () => {} },
    inTurn: (work) => work(),
    register: { countFrames: async () => 0 },
    tell: async () => {},
  };
});

/** Does something, so that it can be taken back; gives the act's id. */
async function act(choices: readonly Choice[], inverse?: readonly Choice[]): Promise<string> {
  const { jobs, acts } = options;
  const back = inverse ?? inverseOfJobChoices(jobs.jobs(), choices.filter(isJobChoice));
  await jobs.choose(choices, who);
  acts.note(who, { code: 'job.changed', args: {} }, choices, back);
  return acts.all()[0]?.id ?? '';
}

const moveIn: Choice[] = [{ type: 'job-set', frame: 'f', job: 'A' }];
const moveOut: Choice[] = [{ type: 'job-set', frame: 'f', job: 'unsorted' }];

test('a frame that was in a job whose making was taken back goes nowhere, and what was done earlier can be taken back', async () => {
  const other = await act([made('B')]);
  const making = await act([made('A')]);
  await act(moveIn, moveOut);
  const movedOut = await act(moveOut, moveIn);
  await undo(options, making, who);
  expect(options.jobs.job('A')).toBeNull();
  await expect(undo(options, movedOut, who)).rejects.toMatchObject({ code: 'no-job' });
  await expect(undo(options, movedOut, who)).rejects.toMatchObject({ code: 'nothing-to-undo' });
  await undo(options, undefined, who);
  expect(await undo(options, undefined, who)).toMatchObject({ id: other });
});

test('no frame is put into a job or a shot that is not there', async () => {
  await act(moveOut, moveIn);
  await expect(undo(options, undefined, who)).rejects.toMatchObject({ code: 'no-job' });
  await act([made('A')]);
  frameJob = 'A';
  await act([{ type: 'shot-set', frame: 'f', shot: null }], [{ type: 'shot-set', frame: 'f', shot: 'gone' }]);
  await expect(undo(options, undefined, who)).rejects.toMatchObject({ code: 'no-shot' });
});

test('nothing in a closed job is taken back or put back, but for its closing', async () => {
  await act([made('A'), mug]);
  const added = await act([{ ...mug, shot: plainShot('jug', 'Jug') }]);
  const closing = await act([closed]);
  await expect(undo(options, added, who)).rejects.toMatchObject({ code: 'job-finished' });
  await undo(options, closing, who);
  await undo(options, added, who);
  expect(options.jobs.job('A')?.shots).toHaveLength(1);
  await options.jobs.choose([closed], null);
  await expect(putBack(options, who)).rejects.toMatchObject({ code: 'job-finished' });
});

test('a frame of a closed job stays where it is; its mark is taken back', async () => {
  await act([made('A')]);
  frameJob = 'A';
  await act(moveIn, moveOut);
  const mark = { type: 'mark-set', frame: 'f' } as const;
  const marked = await act([{ ...mark, mark: 'hero' }], [{ ...mark, mark: 'none' }]);
  await options.jobs.choose([closed], null);
  await undo(options, marked, who);
  await expect(undo(options, undefined, who)).rejects.toMatchObject({ code: 'job-finished' });
  frameJob = 'B';
  await expect(putBack({ ...options }, who)).resolves.toMatchObject({ id: marked });
});
