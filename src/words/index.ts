/** words: findings to sentences. No finding is put into words elsewhere. */

export { actPhrase } from './acts.ts';
export { bagLabels } from './bag-labels.ts';
export { callSheetLabels, careLines } from './call-sheet-words.ts';
export { cameraAddresses } from './camera-addresses.ts';
export { cameraForms, passwordGroups } from './camera-sheet.ts';
export { sheetLabels } from './camera-sheet-labels.ts';
export type {
  SheetCamera,
  SheetForm,
  SheetRow,
  SheetStation,
  SheetWay,
  SheetWayIn,
} from './camera-sheet-shapes.ts';
export { clientLabels, copySpaceWords, maskPhrase } from './client-labels.ts';
export { contactLabels } from './contact-labels.ts';
export { destinationLabels, type PlaceSaid, placePhraseOf } from './destination-labels.ts';
export { exposedFigurePhrase } from './english-exposed.ts';
export { linePlaces, surePhrases } from './english-line-check.ts';
export { frameSentence, ofTheCopy } from './frame-sentence.ts';
export { handOverLabels } from './hand-over-labels.ts';
export { jobLabels, jobTitle, tolerancePhrases, toleranceWords } from './job-labels.ts';
export { jobPageLabels, jobStateShort, jobStateWords, targetEditionNames } from './job-page-labels.ts';
export {
  firewallNames,
  lineLabels,
  placeInWords,
  placeNames,
  type WayPlace,
  type WayState,
  wayPhrases,
  wayStateNames,
} from './line-labels.ts';
export {
  enterLabels,
  guestLabels,
  leaveLabels,
  linkLabels,
  linkLengths,
  placePhrase,
  pocketLabels,
  rehearsalLabels,
  scopeWords,
  sharedWords,
} from './link-labels.ts';
export { lookInForcePhrase } from './look-acts.ts';
export { type Held, heldPhrase } from './look-held.ts';
export {
  alreadyPhrase,
  bandPhrase,
  beforePhrase,
  figureOfPhrase,
  lookLabels,
  lookStandPhrase,
  patchesPhrase,
  piecesPhrase,
  versionPhrase,
  willDifferPhrase,
} from './look-labels.ts';
export { type ParameterWords, parameterWords, unitWords } from './look-words.ts';
export { mergeFindings } from './merge-findings.ts';
export {
  digitalSourceNames,
  metadataLabels,
  pictureWordNames,
  placePartNames,
  privateFieldWords,
} from './metadata-labels.ts';
export {
  expectedFilesNames,
  judgementNames,
  kindName,
  markNames,
  purposeNames,
  questionNames,
  settledNames,
  standingNames,
} from './names.ts';
export {
  andMorePhrase,
  certificateSteps,
  demoSteps,
  doorNames,
  firstSteps,
  framesPhrase,
  hostKeyNames,
  keyKindNames,
  pageLabels,
} from './page-labels.ts';
export { type PagePath, pagePaths, titleOf, titleOfPage } from './page-titles.ts';
export { contactPaperLabels, paperLabels } from './paper-labels.ts';
export {
  aperturePhrase,
  burstPhrase,
  durationPhrase,
  exposureTimePhrase,
  figurePhrase,
  scalePhrase,
  sizePhrase,
  spanPhrase,
  withoutExtension,
} from './phrases.ts';
export { pinNames } from './pin-names.ts';
export { liesPhrase, subjectPhrase } from './place-phrases.ts';
export { plainText } from './plain-text.ts';
export {
  blurPhrase,
  channelPhrase,
  depthMissingPhrase,
  depthPhrase,
  distancePhrase,
  driftPhrase,
  edgePhrase,
  evPhrase,
  lostPhrase,
  lostSharePhrase,
  percentPhrase,
  readingLabels,
  ringPhrase,
  sharpMapPhrase,
  spotPhrase,
  stopsMarkPhrase,
  targetPhrase,
} from './reading-labels.ts';
export {
  agreementLabels,
  newWordsPhrase,
  pinName,
  remarkCount,
  remarkLabels,
  remarksButton,
  saidBy,
  speakerName,
  standingWords,
  unsentWords,
} from './remark-labels.ts';
export { reportLabels } from './report-labels.ts';
export { namesOfSome, type SaidOfFiles, saidOfFiles } from './said-of-all.ts';
export { scaleToldPhrase } from './scale-phrases.ts';
export { knownCodes, type Language, sentence } from './sentences.ts';
export { shotName } from './shot-name.ts';
export { shotlessPhrase, shotlessSentence } from './shotless-words.ts';
export { clockLabels, slateLabels } from './slate-labels.ts';
export { soundLabels } from './sound-labels.ts';
export { type SpecificationSaid, specificationRows } from './specification-words.ts';
export { aloud, type SpokenFrame, spokenFrame, spokenFrames, spokenLines } from './spoken.ts';
export { agreementNames, strikeCostNames, strikeLabels } from './strike-labels.ts';
export { countedPhrase, targetWorthPhrase } from './target-phrases.ts';
