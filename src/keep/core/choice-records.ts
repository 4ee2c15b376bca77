import type { EpochMs } from '../../base/index.ts';
import type {
  Acceptance,
  CountedTarget,
  ExpectedFiles,
  FocusSpot,
  FrameShare,
  GivenAgreement,
  Mark,
  Purpose,
  Question,
  Remark,
  RemarkAnswer,
  ShotScale,
  Speaker,
  TargetEdition,
  Tolerances,
} from '../../facts/index.ts';

/** A choice, and who made it. */
export type Chosen = Choice & {
  /**
   * `operator`, or the name of the link they came in by. Left out in records of before version 6, and of what no person chose.
   * A record that has it is of version 6.
   */
  readonly who?: string;
};

/** What people decide: nothing can rebuild it, so it is journalled before anything else hears of it. */
export type Choice =
  | MarkSet
  | ShotSet
  | JobSet
  | PurposeSet
  | AcceptanceSet
  | JobOpened
  | JobClosed
  | JobDescribed
  | JobStateSet
  | JobTolerancesSet
  | JobRemoved
  | ShotStated
  | ShotsOrdered
  | ShotRemoved
  | ShotCurrentSet
  | JobGreyCardSet
  | JobColourSet
  | JobTargetsSet
  | JobScalesSet
  | JobHandOverSet
  | JobLastNumbersSet
  | JobExplainedSet
  | JobSignedSet
  | ShotFollowed
  | SlateHeeded
  | SpotSet
  | LookSet
  | ShareSet
  | RemarkMade
  | RemarkAnswered
  | RemarkSettled
  | Agreed
  | AgreementWithdrawn
  | LookSaved
  | LookAsideSet
  | CameraAdded
  | CameraSet
  | CameraClockSet;

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

/** A remark was pinned to a frame. Its id was made on the page, so that it is kept once. */
export interface RemarkMade {
  readonly type: 'remark-made';
  readonly frame: string;
  readonly remark: Pick<Remark, 'id' | 'at' | 'text' | 'inside' | 'by'>;
}

export interface RemarkAnswered {
  readonly type: 'remark-answered';
  readonly frame: string;
  readonly remark: string;
  readonly answer: Omit<RemarkAnswer, 'atMs'>;
}

/** A remark is settled, or open again. */
export interface RemarkSettled {
  readonly type: 'remark-settled';
  readonly frame: string;
  readonly remark: string;
  readonly settled: boolean;
  readonly by: Speaker;
}

/** Somebody gave their word on the heroes of a shot; what the same speaker said of it before is replaced. */
export interface Agreed {
  readonly type: 'agreed';
  readonly job: string;
  readonly agreement: GivenAgreement;
}

export interface AgreementWithdrawn {
  readonly type: 'agreement-withdrawn';
  readonly job: string;
  readonly agreement: string;
}

/** A version of a look was saved: under its own id, never written over. */
export interface LookSaved {
  readonly type: 'look-saved';
  readonly look: string;
  readonly name: string;
  /** 1, 2, 3 … among those of one name. */
  readonly version: number;
  /** SHA-256 over the canonical JSON (RFC 8785) of what changes a picture in it. */
  readonly hash: string;
  /** The whole document. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly by: string;
}

/** A saved version is no longer offered, or is again. */
export interface LookAsideSet {
  readonly type: 'look-aside-set';
  readonly look: string;
  readonly aside: boolean;
}

/** Somebody took a verdict upon themselves, or took that back (null). */
export interface AcceptanceSet {
  readonly type: 'acceptance-set';
  readonly frame: string;
  readonly question: Question;
  readonly acceptance: Omit<Acceptance, 'question'> | null;
}

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

/** A shot is from now on like this; a new one comes at the end of the list. */
export interface ShotStated {
  readonly type: 'shot-stated';
  readonly job: string;
  readonly shot: ShotRecord;
}

export interface ShotRecord {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly camera: string | null;
  readonly look: string | null;
  /** The saved version of it; a record that has this is of version 3. */
  readonly lookId?: string;
  /** Frames. */
  readonly layout: string | null;
  readonly reference: string | null;
  readonly baselines: readonly { readonly frame: string; readonly fromMs: EpochMs }[];
  /** Frames to be marked. */
  readonly heroes: number;
  readonly selects: number;
  readonly agreement: boolean;
  readonly requires: readonly Question[];
  readonly mutes: readonly Question[];
  readonly tolerances: Tolerances;
  readonly hidden: boolean;
  /** Frames; left out where nobody put them in order. A record that has this is of version 3. */
  readonly order?: readonly string[];
}

/** The shots named stand in this order, those not named behind them as they were. */
export interface ShotsOrdered {
  readonly type: 'shots-ordered';
  readonly job: string;
  readonly shots: readonly string[];
}

/** A shot without frames was taken from the list. */
export interface ShotRemoved {
  readonly type: 'shot-removed';
  readonly job: string;
  readonly shot: string;
}

/** New frames of the job belong to this shot from now on, or to none. */
export interface ShotCurrentSet {
  readonly type: 'shot-current-set';
  readonly job: string;
  readonly shot: string | null;
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

/** Whether a frame that a grey card fills says "next shot". */
export interface JobGreyCardSet {
  readonly type: 'job-grey-card-set';
  readonly job: string;
  readonly on: boolean;
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

export interface CameraAdded {
  readonly type: 'camera-added';
  readonly name: string;
  readonly user: string;
  readonly passwordHash: string | null;
}

/** What is expected of a camera; null where nobody has said. */
export interface CameraSet {
  readonly type: 'camera-set';
  readonly camera: string;
  readonly expects: ExpectedFiles | null;
}

/** A camera's clock goes wrong by so much: for all of its frames (null), or for those that arrive from a moment on. */
export interface CameraClockSet {
  readonly type: 'camera-clock-set';
  readonly camera: string;
  /** Station's time minus the camera's, ms. */
  readonly offsetMs: number;
  readonly sinceMs: EpochMs | null;
}
