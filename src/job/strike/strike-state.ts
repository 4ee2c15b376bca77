import type { EpochMs } from '../../base/index.ts';

/** What people said for the strike check of a job. */
export interface StrikeState {
  readonly lastNumbers: readonly LastNumber[];
  readonly explained: readonly Explained[];
  /** Null where nobody signed, or took it back. */
  readonly signed: Signed | null;
}

/** The number that a camera itself shows for its last frame: what comes after it is not missing. */
export interface LastNumber {
  readonly camera: string;
  /** What tells two cameras of one log-in apart (`namePrefix`). */
  readonly prefix: string;
  /** 1 to 9999. */
  readonly counter: number;
  readonly by: string;
  readonly atMs: EpochMs;
}

/** The last number of a camera on a card of which every file is here twice, all read when it was checked. */
export type CardNumber = Pick<LastNumber, 'camera' | 'prefix' | 'counter' | 'atMs'>;

/** Somebody took one line of the check upon themselves. It covers that line as it was, figures and all. */
export interface Explained {
  /** {@link StrikeLine.key}. */
  readonly line: string;
  readonly name: string;
  readonly reason: string;
  readonly atMs: EpochMs;
}

/** Somebody said that the set may come down. */
export interface Signed {
  readonly name: string;
  readonly atMs: EpochMs;
  /** SHA-256 of `stateOf` the check that was signed: it stands as long as the check says the same. */
  readonly state: string;
}

export const noStrike: StrikeState = { lastNumbers: [], explained: [], signed: null };
