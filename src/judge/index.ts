/** judge: readings and facts in, verdicts out. */

export { type ArrivedFacts, judgeArrived, notMeasured } from './arrived.ts';
export { colourDrift, targetDrift } from './colour/drift.ts';
export { type ColourFacts, judgeColour } from './colour/judge-colour.ts';
export { partsDrift } from './colour/parts-drift.ts';
export { type ColourWishes, readColourMosaic, readColourPicture } from './colour/read-colour.ts';
export { toleranceSetsMet } from './colour/sets-met.ts';
export { underProfile } from './colour/under-profile.ts';
export type { ExposedFacts } from './exposed/exposed-facts.ts';
export { exposureValue, exposureValue100, type Settings, settingsStops } from './exposed/exposure-value.ts';
export { judgeExposed } from './exposed/judge-exposed.ts';
export { lightTrend } from './exposed/light-history.ts';
export { lightDifference } from './exposed/light-map.ts';
export { type FrameSettings, isOfQuality, settingChanges } from './exposed/settings-guard.ts';
export { type InPlaceFacts, judgeInPlace } from './in-place/judge-in-place.ts';
export { type PlacePlane, placeOfMosaic, placeOfPicture, planeEdition } from './in-place/place-plane.ts';
export { type PlainSides, plainSides } from './in-place/plain-sides.ts';
export { type PlaceReference, readInPlace } from './in-place/read-in-place.ts';
export { againstReference, partReadings, type ReferenceReadings } from './keep-readings.ts';
export { usualTolerances } from './limits.ts';
export {
  isSidecar,
  type MissingPartner,
  missingPartner,
  type PartnerFacts,
  partnerWaitMs,
} from './partner.ts';
export { noWishes, type ReadingWishes, readMosaic, readPicture } from './read-frame.ts';
export {
  circleOfConfusion,
  type DepthFacts,
  type DepthOfField,
  depthOfField,
} from './sharp/depth-of-field.ts';
export { judgeSharp, type SharpFacts } from './sharp/judge-sharp.ts';
export { uprightBox } from './sharp/upright-sharp.ts';
