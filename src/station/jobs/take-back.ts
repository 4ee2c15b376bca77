import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Choice } from '../../job/index.ts';
import { type JobDeskOptions, jobsIn } from './choose-for-jobs.ts';
import { isJobChoice } from './job-book.ts';
import { actShape } from './job-shape.ts';
import { judgesAnew } from './judges-anew.ts';

/**
 * Takes an act back by its inverse choices, which are journalled as any others. A job or a shot that got frames meanwhile
 * stays: they would name what is in no list. Throws `nothing-to-undo`, `undo-overtaken`, `has-frames`.
 */
export async function undo(options: JobDeskOptions, id: string | undefined): Promise<contract.ActEntry> {
  const act = options.acts.find(id);
  await make(options, act.inverse);
  options.acts.takenBack(act);
  return actShape(act);
}

/** Does again what was taken back last, as long as nothing was done since. Throws `nothing-to-put-back`, `has-frames`. */
export async function putBack(options: JobDeskOptions): Promise<contract.ActEntry> {
  const act = options.acts.findTakenBack();
  await make(options, act.choices);
  options.acts.putBack(act);
  return actShape(act);
}

async function make(options: JobDeskOptions, choices: readonly Choice[]): Promise<void> {
  const { jobs, flow, tell } = options;
  await assertLeavesNoFrames(options, choices);
  const anew = judgesAnew(jobs.jobs(), choices.filter(isJobChoice));
  await jobs.choose(choices);
  for (const code of jobsIn(choices)) await tell(code, anew);
  const frames = new Set(choices.flatMap((choice) => (isJobChoice(choice) ? [] : choice.frame)));
  for (const frame of frames) await flow.changed(frame, 'chosen');
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
