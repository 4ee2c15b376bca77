import { errorCode, SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import {
  type Act,
  applyJobChoice,
  assertJobNotClosed,
  type Choice,
  type FrameChoice,
  isFrameChoice,
  isJobChoice,
  type Jobs,
  jobToChange,
  trayCode,
} from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameFlow } from '../frame-flow.ts';
import type { Doer } from './act-book.ts';
import { type JobDeskOptions, jobsIn } from './choose-for-jobs.ts';
import { actShape } from './job-shape.ts';
import { judgesAnew } from './judges-anew.ts';

const goneCodes: readonly unknown[] = ['no-job', 'no-shot'];

export interface TakeBackOptions
  extends Pick<JobDeskOptions, 'jobs' | 'acts' | 'register' | 'tell' | 'inTurn'> {
  readonly book: { readonly row: (frame: string) => Promise<Pick<FrameRow, 'job'> | null> };
  readonly flow: Pick<FrameFlow, 'changedAll'>;
}

/**
 * Takes an act back by its inverse choices, which are journalled as any others. A job or a shot that got frames meanwhile
 * stays: they would name what is in no list. What may not be done to a closed job is not taken back in it either.
 * Throws `nothing-to-undo`, `undo-overtaken`, `has-frames`, `job-finished`, `no-job`, `no-shot`.
 */
export function undo(
  options: TakeBackOptions,
  id: string | undefined,
  who: Pick<Doer, 'name'>,
): Promise<contract.ActEntry> {
  return inTurnThenTold(options, async () => {
    const act = options.acts.find(id);
    await make(options, act.inverse, who).catch((thrown: unknown) => {
      // The job or the shot it led back to was taken back before: it must not stand in the way of what was done earlier.
      if (goneCodes.includes(errorCode(thrown))) options.acts.forget(act);
      throw thrown;
    });
    options.acts.takenBack(act, who);
    return { act, made: act.inverse };
  });
}

/** Does again what was taken back last, as long as nothing was done since. Throws `nothing-to-put-back`, and as {@link undo}. */
export function putBack(options: TakeBackOptions, who: Pick<Doer, 'name'>): Promise<contract.ActEntry> {
  return inTurnThenTold(options, async () => {
    const act = options.acts.findTakenBack();
    await make(options, act.choices, who);
    options.acts.putBack(act);
    return { act, made: act.choices };
  });
}

/** The pages are told of thousands of frames behind the turn, so that nobody else's choice waits for that. */
async function inTurnThenTold(
  { inTurn, flow }: TakeBackOptions,
  work: () => Promise<{ readonly act: Act; readonly made: readonly Choice[] }>,
): Promise<contract.ActEntry> {
  const { act, made } = await inTurn(work);
  const frames = new Set(made.flatMap((choice) => (isFrameChoice(choice) ? choice.frame : [])));
  await flow.changedAll([...frames], 'chosen');
  return actShape(act);
}

async function make(
  options: TakeBackOptions,
  choices: readonly Choice[],
  who: Pick<Doer, 'name'>,
): Promise<void> {
  const { jobs, tell } = options;
  await assertLeavesNoFrames(options, choices);
  await assertMayBeMade(options, choices);
  const anew = judgesAnew(jobs.jobs(), choices.filter(isJobChoice));
  await jobs.choose(choices, who);
  for (const code of jobsIn(choices)) await tell(code, anew);
}

async function assertLeavesNoFrames(
  { register }: Pick<JobDeskOptions, 'register'>,
  choices: readonly Choice[],
): Promise<void> {
  for (const choice of choices) {
    if (choice.type === 'job-removed' && (await register.countFrames(choice.job)) > 0) {
      throw new SetsideError('has-frames', `job ${choice.job} has frames`);
    }
    if (choice.type === 'shot-removed' && (await register.countFrames(choice.job, choice.shot)) > 0) {
      throw new SetsideError('has-frames', `shot ${choice.shot} of job ${choice.job} has frames`);
    }
  }
}

/** The rules that hold for a choice as it is first made, which time may have changed since. */
async function assertMayBeMade(
  { jobs, book }: Pick<TakeBackOptions, 'jobs' | 'book'>,
  choices: readonly Choice[],
): Promise<void> {
  // An act that closes or opens a job may change it in the same go, in whichever order.
  const opening = new Set(choices.flatMap((choice) => (choice.type === 'job-state-set' ? choice.job : [])));
  const jobOfFrame = new Map<string, string>();
  let now = jobs.jobs();
  for (const choice of choices) {
    if (isJobChoice(choice)) {
      if (!opening.has(choice.job) && !afterTheDay.has(choice.type)) assertJobNotClosed(now, choice.job);
      now = applyJobChoice(now, choice);
      continue;
    }
    // A client's word often comes after the day, and a look belongs to no job.
    if (!isFrameChoice(choice) || afterTheDay.has(choice.type)) continue;
    const { frame } = choice;
    const job = jobOfFrame.get(frame) ?? (await book.row(frame))?.job ?? trayCode;
    assertFrameMay(now, job, choice);
    jobOfFrame.set(frame, choice.type === 'job-set' ? choice.job : job);
  }
}

/** What a closed job takes too. */
const afterTheDay: ReadonlySet<Choice['type']> = new Set<Choice['type']>([
  'mark-set',
  'share-set',
  'agreed',
  'agreement-withdrawn',
]);

function assertFrameMay(jobs: Jobs, job: string, choice: FrameChoice): void {
  assertJobNotClosed(jobs, job);
  if (choice.type === 'job-set' && choice.job !== trayCode) jobToChange(jobs, choice.job);
  if (choice.type !== 'shot-set' && choice.type !== 'shot-followed') return;
  const { shot } = choice;
  if (shot === null || jobs.get(job)?.shots.some(({ id }) => id === shot) === true) return;
  throw new SetsideError('no-shot', `job ${job} has no shot "${shot}"`);
}
