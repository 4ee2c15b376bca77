import type { EpochMs } from '../../base/index.ts';
import type { Question, Tolerances } from '../../facts/index.ts';

/** The shot list of a job. */
export type ShotChoice = ShotStated | ShotsOrdered | ShotRemoved | ShotCurrentSet;

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
