/** stand-in: a pretend camera that photographs a virtual set whose truth is known and uploads over real protocols. */
export { bodiesMax } from './core/camera-body.ts';
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
export { type FileKind, fileKinds } from './core/file-kinds.ts';
export {
  type FramePurpose,
  type FrameRecipe,
  type Held,
  type HoldOrder,
  type ShotName,
  shotNames,
} from './core/frame-plan.ts';
export type {
  FrameTruth,
  HeldTruth,
  LensTruth,
  LightTruth,
  PatchTruth,
  SubjectTruth,
} from './core/frame-truth.ts';
export { parseGreyCardOrder, parseSlateOrder } from './core/hold-order.ts';
export { type RehearsalStep, rehearsalSteps } from './core/rehearsal-cause.ts';
export { type StandInErrorCode, standInErrorCodes } from './errors.ts';
export {
  type Frame,
  type FrameFile,
  type RawCompression,
  type RenderFrameOptions,
  renderFrame,
} from './frame.ts';
export type { Secure } from './ftp-camera.ts';
export type { OnProgress, StandInCode, StandInProgress } from './progress.ts';
export { rehearse } from './rehearsal/rehearse.ts';
export type { RehearsalOptions, RehearsalReport, StepOutcome } from './rehearsal/shapes.ts';
export type { AfterBreak } from './sending.ts';
export type { SentFile, SentFrame } from './sent-frame.ts';
export { runStandIn, type StandInSummary } from './stand-in.ts';
export {
  type Account,
  burstMax,
  defaultPaceBytesPerSecond,
  defaultSizeMegapixels,
  type StandInOptions,
} from './stand-in-options.ts';
