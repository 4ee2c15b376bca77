/**
 * Why a frame of a job belongs to no shot of it: the job listed none when it came; none was current then; the current one was
 * set to another camera; a person put it there; a slate did. `unknown`: an earlier version did not write it down.
 */
export const shotlessReasons = [
  'no-shots',
  'no-current',
  'other-camera',
  'by-hand',
  'by-slate',
  'unknown',
] as const;
export type ShotlessReason = (typeof shotlessReasons)[number];

/** Those that are known as a frame comes. */
export const shotlessAtArrival = [
  'no-shots',
  'no-current',
  'other-camera',
] as const satisfies readonly ShotlessReason[];
export type ShotlessAtArrival = (typeof shotlessAtArrival)[number];
