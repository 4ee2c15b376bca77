import type { ShareBox } from './sharp-reading.ts';

/** Where a person said that it has to be sharp. */
export interface FocusSpot {
  readonly box: ShareBox;
  /** Also for the frames of the shot from this one on, until somebody points out another spot. */
  readonly onward: boolean;
}
