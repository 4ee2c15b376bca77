/** stand-in: a pretend camera that photographs a virtual set whose truth is known and uploads over real protocols. */
export { parseFaultOrder } from './core/fault-order.ts';
export {
  type Fault,
  type FaultFacts,
  type FaultName,
  type FaultOrder,
  type FaultValue,
  faultFacts,
  faultNames,
} from './core/faults.ts';
export { type FramePurpose, type FrameRecipe, type ShotName, shotNames } from './core/frame-plan.ts';
export type { FrameTruth, PatchTruth } from './core/frame-truth.ts';
export type { EmbeddedJpeg, StandInRaw } from './core/raw-shape.ts';
export { writeStandInRaw } from './core/raw-writer.ts';
export { type StandInErrorCode, standInErrorCodes } from './errors.ts';
export { type Frame, type RenderFrameOptions, renderFrame } from './frame.ts';
export type { OnProgress, StandInCode, StandInProgress } from './progress.ts';
export {
  defaultPaceBytesPerSecond,
  defaultSizeMegapixels,
  runStandIn,
  type SentFrame,
  type StandInOptions,
  type StandInSummary,
} from './stand-in.ts';
