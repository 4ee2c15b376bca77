/** job: what the rules of jobs and shots are. Plans give choices; `station` journals them and applies them. */
export { planAgreement, planWithdrawal, withAgreement } from './agreements.ts';
export { applyJobChoice } from './apply-choice.ts';
export { jobToChange, layoutSender, trayCode } from './checks.ts';
export {
  type Choice,
  type ChosenOfFrame,
  type FrameChoice,
  type HeededSlate,
  isFrameChoice,
  isJobChoice,
  isLookChoice,
  type JobChoice,
  type PlacedBy,
  placers,
  type RemarkChoice,
} from './choice.ts';
export type { JobErrorCode } from './errors.ts';
export {
  type ClockOffset,
  clockOffsetInForce,
  covers,
  openQuestions,
  referenceInForce,
  requiredOf,
  scaleInForce,
  shotForArrival,
  targetInForce,
  targetToRenderBy,
  tolerancesInForce,
} from './in-force.ts';
export {
  type Baseline,
  type HandOver,
  type Job,
  type JobState,
  type Jobs,
  type JobWords,
  jobStates,
  listedShots,
  openJobOf,
  plainShot,
  type Shot,
} from './job.ts';
export * as jobLimits from './limits.ts';
export { planWishesMet, withLooksFound } from './look-wishes.ts';
export {
  type KeptLook,
  knownLook,
  type LookChoice,
  type LookDocument,
  type LookInForce,
  type Looks,
  lookInForce,
  lookNameKey,
  type NamedLook,
  newestOfName,
  planLookAside,
  planLookSaved,
  versionsOfName,
} from './looks.ts';
export { assertJobNotClosed, type FrameChange, planAcceptance, planFrameChange } from './plan-frame.ts';
export { type JobChange, type JobWish, planJobChange, planNewJob } from './plan-job.ts';
export { type LookPlaces, planLookUse } from './plan-look-use.ts';
export { planAnswer, planRemark, planSettling, type RemarkedFrame } from './plan-remark.ts';
export { planScale, planScaleGone, type ToldScale } from './plan-scale.ts';
export {
  planBaseline,
  planBaselineRemoval,
  planNewShot,
  planOrder,
  planShotChange,
  planShotRemoval,
  planShotReturn,
  type ShotChange,
} from './plan-shot.ts';
export { type FrameInOrder, nextShot, planHeed, planLate, type ShotWord, shotInForce } from './plan-slate.ts';
export { type MeasuredTarget, planNewTarget, planTargetGone } from './plan-target.ts';
export {
  type Counted,
  type JobReport,
  jobReport,
  type LightPoint,
  type ReportCopies,
  type ReportInput,
  type ReportLight,
  type ReportNumbers,
  type ReportShot,
  type ReportSigned,
  type ReportTarget,
} from './report/job-report.ts';
export type { ReportColour, ReportFrame, ReportShutter } from './report/report-frame.ts';
export {
  type ReportClock,
  type ReportTimes,
  type TimeStep,
  type TimeStepName,
  timeSteps,
} from './report/times.ts';
export { bracketFramesMax, findSeries, type Series, type TimedFrame } from './series.ts';
export {
  type CutRows,
  type Delimiter,
  delimiterOf,
  listBody,
  type Row,
  type RowFault,
  writeShotList,
} from './shot-list/csv.ts';
export { type DecodedText, decodeText, type TextEncoding, textEncodings } from './shot-list/decode-text.ts';
export { type ImportLine, type ImportPlan, planImport } from './shot-list/plan-import.ts';
export {
  type BadLine,
  type ListedShot,
  readShotList,
  type ShotListReading,
} from './shot-list/read-shot-list.ts';
export { type StrikeCamera, strikeCameras } from './strike/number-lines.ts';
export {
  planExplained,
  planLastNumber,
  planSigned,
  planUnexplained,
  planUnsigned,
  type SignWish,
} from './strike/plan-strike.ts';
export type { StrikeShot } from './strike/shot-lines.ts';
export { type StrikeCheck, type StrikeInput, stateOf, strikeCheck } from './strike/strike-check.ts';
export { isAskedAbout, type JudgedFrame, type StrikeFile, type StrikeFrame } from './strike/strike-frame.ts';
export type { StrikeLine } from './strike/strike-line.ts';
export {
  type CardNumber,
  type Explained,
  type LastNumber,
  noStrike,
  type Signed,
  type StrikeState,
} from './strike/strike-state.ts';
export {
  type Act,
  inverseOfFrameChoices,
  inverseOfJobChoices,
  inverseOfLookChoices,
  takeAct,
  touchedBy,
  withAct,
} from './undo.ts';
