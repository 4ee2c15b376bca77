import type { EpochMs } from '../base/index.ts';
import type { CameraProfile, TargetEdition } from './colour-reading.ts';

export const targetEditions = [
  'before-november-2014',
  'from-november-2014',
] as const satisfies readonly TargetEdition[];

/** How colour is judged in a job. */
export interface JobColour {
  /** Which edition the target on this set is: it stands on its back. Null: it is recognised, or the newer one assumed. */
  readonly edition: TargetEdition | null;
  /** Name of a tolerance set that stands in place of the limits for colour; null for none. */
  readonly toleranceSet: string | null;
}

/** A frame with a target that a person has let count: from its moment on, frames of the camera are held against it. */
export interface CountedTarget {
  readonly frame: string;
  readonly camera: string;
  readonly fromMs: EpochMs;
  /** As it was measured then, with its leave-one-out error; null where none could be made. */
  readonly profile: CameraProfile | null;
}
