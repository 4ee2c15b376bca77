import type { Agreement } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  inverseOfJobChoices,
  type Job,
  type JobChoice,
  planAgreement,
  planWithdrawal,
} from '../../job/index.ts';
import type { AgreementCalls, Who } from '../../serve/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { JobDeskOptions } from '../jobs/choose-for-jobs.ts';
import { jobShape } from '../jobs/job-shape.ts';
import type { LinkBook } from '../links/link-book.ts';
import type { InTurn } from '../turn.ts';
import { speakerOf } from './speaker-of.ts';
import { heroesOf } from './words-on-shots.ts';

export interface AgreementDeskOptions extends Pick<JobDeskOptions, 'jobs' | 'acts' | 'tell'> {
  readonly book: Pick<FrameBook, 'page'>;
  /** Which device gave which agreement. */
  readonly words: Pick<LinkBook, 'gaveWord' | 'noteWord'>;
  readonly inTurn: InTurn;
  readonly now: () => number;
}

/** Who gives their word on which shot. Seeing which heroes there are and journalling the word is one step. */
export function createAgreementDesk(options: AgreementDeskOptions): AgreementCalls {
  const { jobs, inTurn } = options;
  return {
    agreements: async (code) => {
      const job = jobs.job(code);
      return job === null ? null : jobShape(job).agreements;
    },
    agree: (code, shot, { id, name, pictures, again }, who) =>
      inTurn(async () => {
        const job = jobs.job(code);
        if (job === null) return null;
        const by = speakerOf(who, name);
        const agreement = { id, shot, pictures, by, atMs: options.now() };
        const choices = planAgreement(job, agreement, await heroesOf(options.book, code, shot), {
          gaveIt: (earlier) => isTheirs(options, who, earlier),
          again: again === true,
        });
        // Before it is given: a word that nobody on its device can take back would be worse than a note of none.
        if (choices.length > 0 && who.device !== undefined) await options.words.noteWord(who.device, id);
        return chosen(options, job, who, { code: 'job.agreed', args: words(job, shot, by.name) }, choices);
      }),
    withdrawAgreement: (code, agreement, who) =>
      inTurn(async () => {
        const job = jobs.job(code);
        if (job === null) return null;
        const known = job.agreements.find(({ id }) => id === agreement);
        const choices = planWithdrawal(job, agreement, isTheirs(options, who, agreement));
        const args = words(job, known?.shot ?? '', known?.by.name ?? '');
        return chosen(options, job, who, { code: 'job.agreement-withdrawn', args }, choices);
      }),
  };
}

/** The operator answers for everybody; others for what was given on their own device. */
function isTheirs({ words }: AgreementDeskOptions, who: Who, agreement: string): boolean {
  if (who.scope === 'operator') return true;
  return who.device !== undefined && words.gaveWord(who.device, agreement);
}

/** A guest's word is no act of the operator's, who would take it back with the next undo. */
async function chosen(
  { jobs, acts, tell }: AgreementDeskOptions,
  { code }: Job,
  who: Who,
  what: Finding,
  choices: readonly JobChoice[],
): Promise<readonly Agreement[] | null> {
  if (choices.length > 0) {
    const inverse = inverseOfJobChoices(jobs.jobs(), choices);
    await jobs.choose(choices, who);
    if (who.scope === 'operator') acts.note(who, what, choices, inverse);
    await tell(code);
  }
  const after = jobs.job(code);
  return after === null ? null : jobShape(after).agreements;
}

function words(job: Job, shot: string, name: string): Finding['args'] {
  return { name, shot: job.shots.find(({ id }) => id === shot)?.name ?? shot };
}
