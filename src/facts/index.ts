/** facts: shapes that rooms meet in. No behaviour beyond tables. */
export type { Acceptance } from './acceptance.ts';
export {
  type AgreementStanding,
  agreementStanding,
  agreementStandings,
  type FrameShare,
  frameShares,
  type GivenAgreement,
  heroesSeen,
  isForGuests,
  isForTheClient,
  type SeenPicture,
  seenPicture,
} from './agreement.ts';
export type { CaptureFacts, Orientation, ShutterTime } from './capture-facts.ts';
export { inChosenOrder } from './chosen-order.ts';
export type {
  CameraProfile,
  ColourDrift,
  ColourFigures,
  ColourMap,
  ColourReading,
  ColourSummary,
  GreyError,
  NoTarget,
  NoTargetReading,
  PatchReading,
  TargetEdition,
  TargetPlace,
  TargetReading,
  Triple,
} from './colour-reading.ts';
export { type CountedTarget, type JobColour, targetEditions } from './colour-target.ts';
export { type CopySpace, type CopySpaceSide, copySpaceShareUsual, copySpaceSides } from './copy-space.ts';
export { type ExpectedFiles, expectedFiles } from './expected-files.ts';
export {
  type BackdropReading,
  type Banding,
  type ChannelReading,
  type ExposedFigures,
  type ExposedReading,
  type LightDifference,
  type LightMap,
  type LightTrend,
  type LostMap,
  lostBits,
  type StopsHistogram,
  stepStops,
  stopSteps,
  stopsFrom,
} from './exposed-reading.ts';
export type { Finding } from './finding.ts';
export type { FocusSpot } from './focus-spot.ts';
export {
  type AgainstReference,
  type DeliveredColour,
  type DriftFromTarget,
  type FrameReadings,
  type KeptPlace,
  type KeptReadings,
  type ReadingDetail,
  readingsEdition,
  type SharpReference,
  type SoftPart,
} from './frame-readings.ts';
export type {
  GainMap,
  LensCorrections,
  LensFisheye,
  LensStep,
  LensWarp,
  RadialGain,
  WarpPlane,
} from './lens-corrections.ts';
export { type Mark, markOfXmpRating, marks, markToXmpRating } from './mark.ts';
export type { Mosaic } from './mosaic.ts';
export {
  type MovedPart,
  type NoPlaceReason,
  type NoSubjectReason,
  noPlaceReasons,
  noSubjectReasons,
  type PlaceReading,
  type PlaceShift,
  type SubjectBox,
} from './place-reading.ts';
export { type Purpose, purposes, showsLight } from './purpose.ts';
export type { RawLayout } from './raw-layout.ts';
export { isOfTheShoot, isRehearsalPicture, rehearsalPictureName } from './rehearsal-picture.ts';
export {
  type Remark,
  type RemarkAnswer,
  type Speaker,
  type SpeakerKind,
  speakerKinds,
} from './remark.ts';
export { type SettingChange, type SettingName, settingNames } from './settings-change.ts';
export {
  type BlurKind,
  blurKinds,
  type EdgeProfile,
  type EdgeWidth,
  type LightSourceName,
  lightSources,
  type ShareBox,
  type SharpFigures,
  type SharpMap,
  type SharpReading,
  type SpotTeller,
  spotTellers,
} from './sharp-reading.ts';
export {
  type ScaleTeller,
  type SharePoint,
  type ShotScale,
  scaleTellers,
  targetSteps,
  targetWidthSteps,
} from './shot-scale.ts';
export {
  type ShotlessAtArrival,
  type ShotlessReason,
  shotlessAtArrival,
  shotlessReasons,
} from './shotless.ts';
export type { SidecarWords } from './sidecar-words.ts';
export {
  hasAccepted,
  openJudgement,
  type Settled,
  type Standing,
  settledOf,
  standingOf,
} from './standing.ts';
export { type Agreement, agreements, type StrikeCost, strikeCosts } from './strike.ts';
export {
  type Tolerance,
  type ToleranceName,
  type Tolerances,
  toleranceNames,
  toleranceUnits,
} from './tolerance.ts';
export { type ToleranceSet, toleranceSets } from './tolerance-sets.ts';
export {
  type Figure,
  type Judgement,
  judgements,
  type Question,
  questions,
  type Verdict,
  type Verdicts,
} from './verdict.ts';
export { type ArrivalState, arrivalStates, type Wholeness } from './wholeness.ts';
