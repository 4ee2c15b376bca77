import type { EpochMs } from '../../base/index.ts';
import type { ExpectedFiles } from '../../facts/index.ts';

/** The cameras, and what is expected of each. */
export type CameraChoice = CameraAdded | CameraSet | CameraClockSet;

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
