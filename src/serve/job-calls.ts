import type {
  ActEntry,
  Frame,
  FramePatch,
  FramesMarked,
  FramesToMark,
  FramesToTakeIn,
  ImportReport,
  Job,
  JobPatch,
  NewAcceptance,
  NewJob,
  NewScale,
  NewShot,
  SeriesEntry,
  ShotPatch,
  Strike,
  StrikeExplained,
  StrikeNumber,
  StrikeSignature,
  ToldAct,
} from '../contract/index.ts';
import type { Question } from '../facts/index.ts';
import type { JsonShotList } from './core/json-shot-list.ts';
import type { Who } from './core/who.ts';

/**
 * What the web door needs of the station about jobs. Each change is durable when it settles, gives the job after it, and
 * null where there is no such job or no such shot in the address. Each may reject `version-changed`, and `job-finished`,
 * `bad-words`, `bad-tolerance`, `too-many-shots` as the rules have it.
 */
export interface JobCalls {
  /** The newest opened first. */
  jobs(): Promise<readonly Job[]>;
  job(code: string): Promise<Job | null>;
  /** Rejects `bad-job-code`, `job-exists`, `no-job` for one to copy. */
  makeJob(wish: NewJob, who: Who): Promise<Job>;
  /** Rejects `no-shot`. */
  patchJob(code: string, patch: JobPatch, by: PatchBy): Promise<Job | null>;
  addShot(code: string, wish: NewShot, by: PatchBy): Promise<Job | null>;
  patchShot(code: string, shot: string, patch: ShotPatch, by: PatchBy): Promise<Job | null>;
  /** One with frames is hidden. */
  removeShot(code: string, shot: string, by: PatchBy): Promise<Job | null>;
  /** A hidden one is listed again. */
  bringShotBack(code: string, shot: string, by: PatchBy): Promise<Job | null>;
  /** Rejects `bad-order`. */
  orderShots(code: string, order: readonly string[], by: PatchBy): Promise<Job | null>;
  /** Rejects `no-frame`, `too-many-baselines`. */
  setBaseline(code: string, shot: string, frame: string, by: PatchBy): Promise<Job | null>;
  /** One that is none is taken away already. */
  removeBaseline(code: string, shot: string, frame: string, by: PatchBy): Promise<Job | null>;
  /** A preview changes nothing. Rejects `bad-text`. */
  importShots(code: string, file: ShotListFile, preview: boolean, by: PatchBy): Promise<ImportReport | null>;
  /** The list as a file. */
  exportShots(code: string, format: 'csv' | 'json'): Promise<string | null>;
  series(code: string): Promise<readonly SeriesEntry[] | null>;
  /** What can be taken back, the newest first. */
  acts(): Promise<readonly ActEntry[]>;
  /** Who did what that can not be taken back from here, the newest first. */
  toldActs(): Promise<readonly ToldAct[]>;
  /** What was done last to a frame, or to a job and its shots; null where nothing was since the start. */
  lastAct(of: { readonly frame: string } | { readonly job: string }): Promise<ActEntry | null>;
  /** Rejects `nothing-to-undo`, `undo-overtaken`, `has-frames`. */
  undo(act: string | undefined, who: Who): Promise<ActEntry>;
  /** Does again what was taken back last. Rejects `nothing-to-put-back`, `has-frames`. */
  putBack(who: Who): Promise<ActEntry>;
}

/** What people choose of a frame, durably; gives the frame after the change, null where there is none. */
export interface FrameChoiceCalls {
  /** Rejects `version-changed`, `changed-meanwhile`, `no-job`, `no-shot`, `job-finished`. */
  patchFrame(id: string, patch: FramePatch, by: PatchBy): Promise<Frame | null>;
  /** Null takes an acceptance back. Rejects `version-changed`, `changed-meanwhile`, `verdict-is-good`. */
  accept(
    id: string,
    question: Question,
    acceptance: NewAcceptance | null,
    by: PatchBy,
  ): Promise<Frame | null>;
  /**
   * Moves frames to a job as one act; gives how many were not there already, null where there is no such job. Rejects
   * `no-frame`, `no-shot`, `job-finished`; then none is moved.
   */
  takeIn(job: string, wish: FramesToTakeIn, who: Who): Promise<number | null>;
  /**
   * Marks frames alike as one act; gives how many had another mark, and which were left since somebody has marked them
   * meanwhile. Rejects `no-frame`; then none is marked.
   */
  markFrames(wish: FramesToMark, who: Who): Promise<FramesMarked>;
}

/** Frames whose 24-patch target counts for those after them. Each gives the job after it, null where there is no such job or target. */
export interface TargetCalls {
  /** Measures the target first where nobody has. Rejects `version-changed`, `no-frame`, `target-not-read`, `job-finished`, `too-many-targets`. */
  newTarget(code: string, frame: string, by: PatchBy): Promise<Job | null>;
  targetGone(code: string, frame: string, by: PatchBy): Promise<Job | null>;
}

/** How large things are in the pictures of a shot. Each gives the job after it, null where there is no such job or shot. */
export interface ScaleCalls {
  /** Rejects `version-changed`, `no-frame`, `target-not-read`, `bad-scale`, `job-finished`. */
  setScale(code: string, shot: string, scale: NewScale, by: PatchBy): Promise<Job | null>;
  scaleGone(code: string, shot: string, by: PatchBy): Promise<Job | null>;
}

/** The strike check of a job, after the change where there is one; null where there is no such job. */
export interface StrikeCalls {
  /** Null: of the open job. */
  strike(code: string | null): Promise<Strike | null>;
  /** Rejects `version-changed`, `no-such-numbers`, `job-finished`. */
  setLastNumber(code: string, camera: string, said: StrikeNumber, by: PatchBy): Promise<Strike | null>;
  lastNumberGone(
    code: string,
    camera: string,
    prefix: string | undefined,
    by: PatchBy,
  ): Promise<Strike | null>;
  /** Rejects `version-changed`, `no-such-line`, `job-finished`. */
  explainLine(code: string, said: StrikeExplained, by: PatchBy): Promise<Strike | null>;
  lineUnexplained(code: string, line: string, by: PatchBy): Promise<Strike | null>;
  /** Rejects `version-changed`, `strike-not-ready`, `strike-changed`, `job-finished`. */
  sign(code: string, signature: StrikeSignature, by: PatchBy): Promise<Strike | null>;
  signatureGone(code: string, by: PatchBy): Promise<Strike | null>;
}

export interface PatchBy {
  readonly who: Who;
  /** Versions the caller has seen, or `any` where it did not say. Compared in the same step as the change. */
  readonly ifVersion: 'any' | readonly number[];
}

/** A shot list as it came in. */
export type ShotListFile =
  | { readonly kind: 'csv'; readonly bytes: Uint8Array }
  | { readonly kind: 'json'; readonly list: JsonShotList };
