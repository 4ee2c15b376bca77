import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  type Choice,
  type FrameChoice,
  inverseOfFrameChoices,
  inverseOfJobChoices,
  isFrameChoice,
  isJobChoice,
  type JobChoice,
  planNewTarget,
  planTargetGone,
} from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { PatchBy, TargetCalls } from '../../serve/index.ts';
import { chosenOf } from '../chosen-of.ts';
import type { JobDeskOptions } from './choose-for-jobs.ts';
import { assertVersion } from './job-desk.ts';
import { jobShape } from './job-shape.ts';

export interface TargetDeskOptions
  extends Pick<JobDeskOptions, 'jobs' | 'acts' | 'book' | 'flow' | 'tell' | 'inTurn'> {
  /** Looks for a target in a frame that nobody looked for one in; settles when what was read is noted. */
  readonly readTarget: (frame: string) => Promise<void>;
}

/** The calls about targets that count: measured first, then chosen, so that its profile stands in the journal. */
export function createTargetDesk(options: TargetDeskOptions): TargetCalls {
  return {
    newTarget: (code, frame, by) => newTarget(options, code, frame, by),
    targetGone: (code, frame, by) =>
      options.inTurn(async () => {
        const job = options.jobs.job(code);
        const row = await options.book.row(frame);
        if (job === null || row === null || !job.targets.some((known) => known.frame === frame)) return null;
        assertVersion(job, by);
        const what = { code: 'job.target-gone', args: { job: code, name: row.name } };
        return choose(options, row, by, what, planTargetGone(options.jobs.jobs(), code, frame));
      }),
  };
}

async function newTarget(
  options: TargetDeskOptions,
  code: string,
  frame: string,
  by: PatchBy,
): Promise<contract.Job | null> {
  if (options.jobs.job(code) === null) return null;
  // Outside the turn: it takes its second or two.
  if ((await rowIn(options, code, frame)).readings?.colour?.found !== true) await options.readTarget(frame);
  return options.inTurn(async () => {
    const job = options.jobs.job(code);
    if (job === null) return null;
    assertVersion(job, by);
    const row = await rowIn(options, code, frame);
    const colour = row.readings?.colour ?? null;
    if (colour?.found !== true || colour.source === 'preview') {
      const why = colour?.found === false ? colour.why : 'not read';
      throw new SetsideError('target-not-read', `no target was read in frame ${frame}: ${why}`);
    }
    const measured = {
      chosen: chosenOf(row),
      camera: row.camera,
      // Where the frame lies in the day, by the rule that orders frames.
      atMs: row.orderMs,
      profile: colour.profile,
    };
    const what = { code: 'job.new-target', args: { job: code, name: row.name } };
    return choose(options, row, by, what, planNewTarget(options.jobs.jobs(), measured));
  });
}

async function rowIn({ book }: TargetDeskOptions, code: string, frame: string): Promise<FrameRow> {
  const row = await book.row(frame);
  if (row === null || row.job !== code)
    throw new SetsideError('no-frame', `there is no frame ${frame} in job ${code}`);
  return row;
}

async function choose(
  { jobs, acts, flow, tell }: TargetDeskOptions,
  row: FrameRow,
  by: PatchBy,
  what: Finding,
  choices: readonly Choice[],
): Promise<contract.Job | null> {
  const ofJob: readonly JobChoice[] = choices.filter(isJobChoice);
  const ofFrame: readonly FrameChoice[] = choices.filter(isFrameChoice);
  const inverse = [
    ...inverseOfFrameChoices(chosenOf(row), ofFrame),
    ...inverseOfJobChoices(jobs.jobs(), ofJob),
  ];
  await jobs.choose(choices, by.who);
  acts.note(by.who, what, choices, inverse);
  await tell(row.job, true);
  await flow.changed(row.id, 'chosen');
  const after = jobs.job(row.job);
  return after === null ? null : jobShape(after);
}
