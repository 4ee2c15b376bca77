import type { CountedTarget, ShotScale, TargetEdition, Tolerances } from '../../facts/index.ts';

/** What people decide about a job as a whole. */
export type JobChoice =
  | JobOpened
  | JobClosed
  | JobDescribed
  | JobStateSet
  | JobTolerancesSet
  | JobRemoved
  | JobGreyCardSet
  | JobColourSet
  | JobTargetsSet
  | JobScalesSet
  | JobHandOverSet;

/** Version 1, read and no longer written: a job was opened, or opened again with other words and another list. */
export interface JobOpened {
  readonly type: 'job-opened';
  readonly code: string;
  readonly title: string;
  readonly client: string;
  readonly shots: readonly { readonly id: string; readonly name: string }[];
}

/** Version 1, read and no longer written: from now on frames go to the tray. */
export interface JobClosed {
  readonly type: 'job-closed';
}

/** A job was made, or described anew. Days are `YYYY-MM-DD`. */
export interface JobDescribed {
  readonly type: 'job-described';
  readonly job: string;
  readonly title: string;
  readonly client: string;
  readonly fromDate: string | null;
  readonly toDate: string | null;
  readonly place: string;
  readonly notes: string;
}

/** Frames go to the one that is `open`; opening one lays the other aside (`waiting`). */
export interface JobStateSet {
  readonly type: 'job-state-set';
  readonly job: string;
  readonly state: 'waiting' | 'open' | 'closed';
}

export interface JobTolerancesSet {
  readonly type: 'job-tolerances-set';
  readonly job: string;
  readonly tolerances: Tolerances;
}

/** A job without frames was taken from the list. */
export interface JobRemoved {
  readonly type: 'job-removed';
  readonly job: string;
}

/** Whether a frame that a grey card fills says "next shot". */
export interface JobGreyCardSet {
  readonly type: 'job-grey-card-set';
  readonly job: string;
  readonly on: boolean;
}

/** How colour is judged in a job: edition of the target, name of a tolerance set. */
export interface JobColourSet {
  readonly type: 'job-colour-set';
  readonly job: string;
  readonly edition: TargetEdition | null;
  readonly toleranceSet: string | null;
}

/** The frames whose target counts, oldest first, each with the profile that was measured on it. */
export interface JobTargetsSet {
  readonly type: 'job-targets-set';
  readonly job: string;
  readonly targets: readonly CountedTarget[];
}

/** How large things on the set are in the pictures of a shot, one for each shot of which somebody told it. */
export interface JobScalesSet {
  readonly type: 'job-scales-set';
  readonly job: string;
  readonly scales: readonly ShotScale[];
}

/** How a job is handed over: naming template, look, names of delivery specifications. */
export interface JobHandOverSet {
  readonly type: 'job-hand-over-set';
  readonly job: string;
  readonly naming: string;
  readonly look: string | null;
  /** The saved version of it. */
  readonly lookId?: string;
  readonly deliveries: readonly string[];
  /** What is said of its pictures: the text of a document. */
  readonly metadata?: string;
}
