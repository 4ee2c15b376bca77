import type { Acceptance, FocusSpot, FrameShare, Mark, Purpose, Question } from '../../facts/index.ts';

/** What people decide about one frame. */
export type FrameChoice =
  | MarkSet
  | ShotSet
  | JobSet
  | PurposeSet
  | SpotSet
  | LookSet
  | ShareSet
  | AcceptanceSet
  | ShotFollowed
  | SlateHeeded;

export interface MarkSet {
  readonly type: 'mark-set';
  readonly frame: string;
  readonly mark: Mark;
}

export interface ShotSet {
  readonly type: 'shot-set';
  readonly frame: string;
  readonly shot: string | null;
}

/** A frame was moved to another job, or back to the tray. Its bytes stay where they are. */
export interface JobSet {
  readonly type: 'job-set';
  readonly frame: string;
  readonly job: string;
}

export interface PurposeSet {
  readonly type: 'purpose-set';
  readonly frame: string;
  readonly purpose: Purpose;
}

/** Where somebody said that a frame has to be sharp, or took that back (null). */
export interface SpotSet {
  readonly type: 'spot-set';
  readonly frame: string;
  readonly spot: FocusSpot | null;
}

/** A frame is shown with this saved version of a look, or with its shot's or its job's again (null). */
export interface LookSet {
  readonly type: 'look-set';
  readonly frame: string;
  readonly look: string | null;
}

/** Whether guests see a frame was said by hand, or its mark decides again (null). */
export interface ShareSet {
  readonly type: 'share-set';
  readonly frame: string;
  readonly share: FrameShare | null;
}

/** Somebody took a verdict upon themselves, or took that back (null). */
export interface AcceptanceSet {
  readonly type: 'acceptance-set';
  readonly frame: string;
  readonly question: Question;
  readonly acceptance: Omit<Acceptance, 'question'> | null;
}

/** A frame went to the shot that its place in the order of the shutter gives it; nobody moved it by hand. */
export interface ShotFollowed {
  readonly type: 'shot-followed';
  readonly frame: string;
  readonly shot: string | null;
  /** A slate in front of it, or what was current as it came. */
  readonly by: 'arrival' | 'slate';
}

/** A slate or a grey card was seen in a frame. It is heeded once, whatever is read in the frame later. */
export interface SlateHeeded {
  readonly type: 'slate-heeded';
  readonly frame: string;
  readonly slate: {
    readonly job: string;
    /** What frames from this one on belong to, and what they belonged to until then. */
    readonly shot: string | null;
    readonly before: string | null;
    /** False where it changed nothing, or was taken back. */
    readonly inForce: boolean;
  };
}
