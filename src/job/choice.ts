import type { Acceptance, Mark, Purpose, Question, Tolerances } from '../facts/index.ts';
import type { JobState, JobWords, Shot } from './job.ts';

/** What people decide about a job. Each states how something is from now on. */
export type JobChoice =
  /** Makes the job where there is none of this code. */
  | ({ readonly type: 'job-described'; readonly job: string } & JobWords)
  /** Opening one lays the one that was open aside. */
  | { readonly type: 'job-state-set'; readonly job: string; readonly state: JobState }
  | { readonly type: 'job-tolerances-set'; readonly job: string; readonly tolerances: Tolerances }
  /** Takes a job without frames out of the list. */
  | { readonly type: 'job-removed'; readonly job: string }
  /** Makes the shot at the end of the list, or changes it in its place. */
  | { readonly type: 'shot-stated'; readonly job: string; readonly shot: Shot }
  | { readonly type: 'shots-ordered'; readonly job: string; readonly shots: readonly string[] }
  /** Takes a shot without frames out of the list. */
  | { readonly type: 'shot-removed'; readonly job: string; readonly shot: string }
  | { readonly type: 'shot-current-set'; readonly job: string; readonly shot: string | null };

/** What people decide about a frame. */
export type FrameChoice =
  | { readonly type: 'mark-set'; readonly frame: string; readonly mark: Mark }
  | { readonly type: 'job-set'; readonly frame: string; readonly job: string }
  | { readonly type: 'shot-set'; readonly frame: string; readonly shot: string | null }
  | { readonly type: 'purpose-set'; readonly frame: string; readonly purpose: Purpose }
  /** Null takes an acceptance back. */
  | {
      readonly type: 'acceptance-set';
      readonly frame: string;
      readonly question: Question;
      readonly acceptance: Omit<Acceptance, 'question'> | null;
    };

export type Choice = JobChoice | FrameChoice;

/** What people have chosen of a frame so far. */
export interface ChosenOfFrame {
  readonly id: string;
  readonly mark: Mark;
  readonly job: string;
  readonly shot: string | null;
  readonly purpose: Purpose;
  readonly acceptances: readonly Acceptance[];
}
