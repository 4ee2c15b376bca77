import type {
  Acceptance,
  CountedTarget,
  FocusSpot,
  FrameShare,
  GivenAgreement,
  JobColour,
  Mark,
  Purpose,
  Question,
  Remark,
  RemarkAnswer,
  ShotScale,
  Speaker,
  Tolerances,
} from '../facts/index.ts';
import type { HandOver, JobState, JobWords, Shot } from './job.ts';
import type { LookChoice } from './looks.ts';
import type { Explained, LastNumber, Signed } from './strike/strike-state.ts';

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
  | { readonly type: 'shot-current-set'; readonly job: string; readonly shot: string | null }
  /** Whether a frame that a grey card fills says "next shot". */
  | ({ readonly type: 'job-hand-over-set'; readonly job: string } & HandOver)
  | ({ readonly type: 'job-colour-set'; readonly job: string } & JobColour)
  /** Oldest first. */
  | { readonly type: 'job-targets-set'; readonly job: string; readonly targets: readonly CountedTarget[] }
  /** One for each shot whose scale somebody told. */
  | { readonly type: 'job-scales-set'; readonly job: string; readonly scales: readonly ShotScale[] }
  | { readonly type: 'job-grey-card-set'; readonly job: string; readonly on: boolean }
  | {
      readonly type: 'job-last-numbers-set';
      readonly job: string;
      readonly lastNumbers: readonly LastNumber[];
    }
  | { readonly type: 'job-explained-set'; readonly job: string; readonly explained: readonly Explained[] }
  /** Null takes the signature back. */
  | { readonly type: 'job-signed-set'; readonly job: string; readonly signed: Signed | null }
  /** Somebody gave their word on a shot; whoever said it before says it anew. */
  | { readonly type: 'agreed'; readonly job: string; readonly agreement: GivenAgreement }
  | { readonly type: 'agreement-withdrawn'; readonly job: string; readonly agreement: string };

/** What people decide about a frame. */
export type FrameChoice =
  | { readonly type: 'mark-set'; readonly frame: string; readonly mark: Mark }
  | { readonly type: 'job-set'; readonly frame: string; readonly job: string }
  | { readonly type: 'shot-set'; readonly frame: string; readonly shot: string | null }
  | { readonly type: 'purpose-set'; readonly frame: string; readonly purpose: Purpose }
  /** Null takes the spot back. */
  | { readonly type: 'spot-set'; readonly frame: string; readonly spot: FocusSpot | null }
  /** A saved version of a look; null for its shot's or its job's. */
  | { readonly type: 'look-set'; readonly frame: string; readonly look: string | null }
  /** Whether guests see it; null: by its mark. */
  | { readonly type: 'share-set'; readonly frame: string; readonly share: FrameShare | null }
  /** Null takes an acceptance back. */
  | {
      readonly type: 'acceptance-set';
      readonly frame: string;
      readonly question: Question;
      readonly acceptance: Omit<Acceptance, 'question'> | null;
    }
  /** The frame goes where its place in the order of the shutter says, and not where a hand put it. */
  | {
      readonly type: 'shot-followed';
      readonly frame: string;
      readonly shot: string | null;
      readonly by: Exclude<PlacedBy, 'hand'>;
    }
  /** What was held into the frame was seen, and counts or does not: it is never heeded a second time. */
  | { readonly type: 'slate-heeded'; readonly frame: string; readonly slate: HeededSlate };

/**
 * What people say about a frame. It is no choice that is taken back: what was said stays said, answered and settled.
 * When, the journal says.
 */
export type RemarkChoice =
  | {
      readonly type: 'remark-made';
      readonly frame: string;
      readonly remark: Pick<Remark, 'id' | 'at' | 'text' | 'inside' | 'by'>;
    }
  | {
      readonly type: 'remark-answered';
      readonly frame: string;
      readonly remark: string;
      readonly answer: Omit<RemarkAnswer, 'atMs'>;
    }
  | {
      readonly type: 'remark-settled';
      readonly frame: string;
      readonly remark: string;
      /** False: it is open again. */
      readonly settled: boolean;
      readonly by: Speaker;
    };

/** Who put a frame to its shot: the shot that was current as it came, a slate in front of it, or a person. */
export const placers = ['arrival', 'slate', 'hand'] as const;
export type PlacedBy = (typeof placers)[number];

/** A slate, or a grey card, that was seen in a frame. */
export interface HeededSlate {
  readonly job: string;
  /** The shot that frames go to from this one on. */
  readonly shot: string | null;
  /** The shot that frames went to until then. */
  readonly before: string | null;
  /** False where it changed nothing, or was taken back. */
  readonly inForce: boolean;
}

export type Choice = JobChoice | FrameChoice | LookChoice;

export function isFrameChoice(choice: Choice): choice is FrameChoice {
  return 'frame' in choice;
}

export function isLookChoice(choice: Choice): choice is LookChoice {
  return choice.type === 'look-saved' || choice.type === 'look-aside-set';
}

export function isJobChoice(choice: Choice): choice is JobChoice {
  return !isFrameChoice(choice) && !isLookChoice(choice);
}

/** What people have chosen of a frame so far. */
export interface ChosenOfFrame {
  readonly id: string;
  readonly mark: Mark;
  readonly job: string;
  readonly shot: string | null;
  readonly purpose: Purpose;
  readonly spot: FocusSpot | null;
  /** The saved version of a look that was chosen for it alone. */
  readonly look: string | null;
  /** Null: by its mark. */
  readonly share: FrameShare | null;
  readonly acceptances: readonly Acceptance[];
  readonly placedBy: PlacedBy;
  /** Null where nothing was held into it. */
  readonly slate: HeededSlate | null;
}
