import type { EpochMs } from '../base/index.ts';
import type {
  CountedTarget,
  GivenAgreement,
  JobColour,
  Question,
  ShotScale,
  Tolerances,
} from '../facts/index.ts';
import type { StrikeState } from './strike/strike-state.ts';

/**
 * `waiting`: prepared, or laid aside for another; `open`: frames go to it now, at most one is; `closed`: finished, and not
 * changed until somebody opens it again.
 */
export const jobStates = ['waiting', 'open', 'closed'] as const;
export type JobState = (typeof jobStates)[number];

export interface JobWords {
  readonly title: string;
  readonly client: string;
  /** First and last day, `YYYY-MM-DD` (RFC 3339 full-date), or null where nobody said. */
  readonly fromDate: string | null;
  readonly toDate: string | null;
  readonly place: string;
  readonly notes: string;
}

/** How a job is handed over: kept as it was said, for the rooms that render and deliver. */
export interface HandOver {
  /** Template of the names of delivered files, such as `{job}_{shot}_{counter}`; empty where nobody said. */
  readonly naming: string;
  /** The look that its frames are shown and delivered with where a shot has none of its own; null for the station's. */
  readonly look: string | null;
  /** The saved version that was chosen of it; left out as long as none of that name is kept. */
  readonly lookId?: string;
  /** Names of delivery specifications, each once, in the order they were said. */
  readonly deliveries: readonly string[];
  /** What is written into its pictures: the text of a document that the room deliver reads; left out, or empty, where nobody said. */
  readonly metadata?: string;
}

export interface Job extends JobWords {
  readonly code: string;
  readonly state: JobState;
  readonly tolerances: Tolerances;
  /** Whether a frame that a grey card fills says "next shot". */
  readonly greyCard: boolean;
  readonly handOver: HandOver;
  readonly colour: JobColour;
  /** Frames with a target that counts, oldest first. */
  readonly targets: readonly CountedTarget[];
  /** How large things on the set are in the pictures of a shot, for each shot of which somebody told it. */
  readonly scales: readonly ShotScale[];
  readonly strike: StrikeState;
  /** Who gave their word on which shot, the oldest first. */
  readonly agreements: readonly GivenAgreement[];
  /** In the order of the day, hidden ones among them. */
  readonly shots: readonly Shot[];
  /** The shot that frames go to as they come, or null. */
  readonly currentShot: string | null;
  /** Rises with every choice about the job. */
  readonly version: number;
}

/** One line of the shot list. */
export interface Shot {
  /** Unique in its job, never used again for another shot. */
  readonly id: string;
  readonly name: string;
  readonly description: string;
  /** Only frames of this camera go to the shot; null for every camera. */
  readonly camera: string | null;
  /** The look it is shown and delivered with; null for the job's. */
  readonly look: string | null;
  /** The saved version that was chosen of it; left out as long as none of that name is kept. */
  readonly lookId?: string;
  /** Frame that holds the layout picture: it comes in and is kept as every picture is. */
  readonly layout: string | null;
  /** Frame that the shot is held against. */
  readonly reference: string | null;
  /** Deliberate changes since: from this moment on frames are held against that frame instead. Oldest first. */
  readonly baselines: readonly Baseline[];
  /** Frames that have to be marked before the set may come down. */
  readonly heroes: number;
  readonly selects: number;
  /** Whether the client's word is wanted. */
  readonly agreement: boolean;
  /** Verdicts that must be good, or accepted. */
  readonly requires: readonly Question[];
  /** Verdicts that are not spoken of for this shot. */
  readonly mutes: readonly Question[];
  /** Stand before the job's, one by one. */
  readonly tolerances: Tolerances;
  /** Taken from the list while it has frames. */
  readonly hidden: boolean;
  /**
   * Chosen frames in the order somebody gave them: heroes and selects of the shot that it does not name stand behind, as they
   * were taken, and one that is no longer chosen means nothing. Left out where nobody did.
   */
  readonly order?: readonly string[];
}

export interface Baseline {
  readonly frame: string;
  readonly fromMs: EpochMs;
}

/** Every job by its code, in the order in which they were last opened, or made where they never were; the newest last. */
export type Jobs = ReadonlyMap<string, Job>;

export const noWords: JobWords = {
  title: '',
  client: '',
  fromDate: null,
  toDate: null,
  place: '',
  notes: '',
};

export const noHandOver: HandOver = { naming: '', look: null, deliveries: [] };

export const noColour: JobColour = { edition: null, toleranceSet: null };

/** A shot of which nothing was said but its id and name. */
export function plainShot(id: string, name: string): Shot {
  return {
    id,
    name,
    description: '',
    camera: null,
    look: null,
    layout: null,
    reference: null,
    baselines: [],
    heroes: 1,
    selects: 0,
    agreement: false,
    requires: ['arrived', 'sharp', 'exposed', 'inPlace', 'colour'],
    mutes: [],
    tolerances: {},
    hidden: false,
  };
}

/** The job that frames go to, or null while they go to the tray. */
export function openJobOf(jobs: Jobs): Job | null {
  return [...jobs.values()].find(({ state }) => state === 'open') ?? null;
}

/** The shots of the list as people see it. */
export function listedShots(job: Job): readonly Shot[] {
  return job.shots.filter(({ hidden }) => !hidden);
}
