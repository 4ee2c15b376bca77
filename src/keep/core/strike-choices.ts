import type { EpochMs } from '../../base/index.ts';

/** What people say for the strike check of a job. */
export type StrikeChoice = JobLastNumbersSet | JobExplainedSet | JobSignedSet;

/** The numbers that cameras themselves show for their last frames, as somebody read them off. */
export interface JobLastNumbersSet {
  readonly type: 'job-last-numbers-set';
  readonly job: string;
  readonly lastNumbers: readonly {
    readonly camera: string;
    /** What tells two cameras of one log-in apart. */
    readonly prefix: string;
    readonly counter: number;
    readonly by: string;
    readonly atMs: EpochMs;
  }[];
}

/** Lines of the strike check that people took upon themselves. */
export interface JobExplainedSet {
  readonly type: 'job-explained-set';
  readonly job: string;
  readonly explained: readonly {
    readonly line: string;
    readonly name: string;
    readonly reason: string;
    readonly atMs: EpochMs;
  }[];
}

/** Somebody signed that the set may come down, or took that back (null). */
export interface JobSignedSet {
  readonly type: 'job-signed-set';
  readonly job: string;
  readonly signed: {
    readonly name: string;
    readonly atMs: EpochMs;
    /** SHA-256 of what the check said. */
    readonly state: string;
  } | null;
}
