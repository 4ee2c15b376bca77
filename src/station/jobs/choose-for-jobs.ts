import type { Finding } from '../../facts/index.ts';
import {
  type Choice,
  inverseOfJobChoices,
  isJobChoice,
  type JobChoice,
  withLooksFound,
} from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';
import type { Register } from '../../register/index.ts';
import type { Who } from '../../serve/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { FrameFlow } from '../frame-flow.ts';
import type { LookBook } from '../looks/look-book.ts';
import type { InTurn } from '../turn.ts';
import type { ActBook } from './act-book.ts';
import type { JobBook } from './job-book.ts';
import { judgesAnew } from './judges-anew.ts';

/** What the calls about jobs work with. */
export interface JobDeskOptions {
  readonly jobs: JobBook;
  readonly looks: Pick<LookBook, 'looks'>;
  readonly acts: ActBook;
  readonly book: FrameBook;
  readonly flow: FrameFlow;
  readonly register: Pick<Register, 'countFrames'>;
  /**
   * Tells the pages of a job that changed, and of the station where the open job did. `anew`: its frames have other
   * verdicts now.
   */
  readonly tell: (code: string, anew?: boolean) => Promise<void>;
  readonly keep: Pick<Keep, 'chosenLately'>;
  readonly now: () => number;
  readonly inTurn: InTurn;
}

/** A look that is only named becomes the newest version of that name. Journals choices of somebody about jobs, notes how to take them back, tells the pages. */
export async function chooseForJobs(
  { jobs, looks, acts, tell }: Pick<JobDeskOptions, 'jobs' | 'looks' | 'acts' | 'tell'>,
  who: Who,
  what: Finding,
  wanted: readonly JobChoice[],
): Promise<void> {
  if (wanted.length === 0) return;
  const choices = withLooksFound(looks.looks(), wanted);
  const inverse = inverseOfJobChoices(jobs.jobs(), choices);
  const anew = judgesAnew(jobs.jobs(), choices);
  await jobs.choose(choices, who);
  acts.note(who, what, choices, inverse);
  for (const code of jobsIn(choices, inverse)) await tell(code, anew);
}

/** Every job that a change touched: opening one lays another aside, which the inverse names. */
export function jobsIn(...choices: readonly (readonly Choice[])[]): Set<string> {
  return new Set(
    choices
      .flat()
      .filter(isJobChoice)
      .map(({ job }) => job),
  );
}
