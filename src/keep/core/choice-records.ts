import type { CameraChoice } from './camera-choices.ts';
import type { FrameChoice } from './frame-choices.ts';
import type { JobChoice } from './job-choices.ts';
import type { LookChoice } from './look-choices.ts';
import type { RemarkChoice } from './remark-choices.ts';
import type { ShotChoice } from './shot-choices.ts';
import type { StrikeChoice } from './strike-choices.ts';

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
  | FrameChoice
  | RemarkChoice
  | LookChoice
  | JobChoice
  | StrikeChoice
  | ShotChoice
  | CameraChoice;
