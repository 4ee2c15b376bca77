/** deliver: what is handed over and how, as data: sizes, names, manifest. */
export { nameKey, safeStem } from './file-name.ts';
export { specificationNamed, specifications } from './library.ts';
export { edgePxMax, edgePxMin, fileNameBytesMax, specificationTextMax } from './limits.ts';
export {
  type Manifest,
  type ManifestFile,
  type ManifestGap,
  type ManifestLine,
  manifestCsv,
  manifestJson,
} from './manifest.ts';
export {
  type MetadataSheet,
  metadataSheetSchema,
  type ReadSheet,
  readMetadataSheet,
  readMetadataSheetText,
  type WordField,
  wordFields,
} from './metadata-sheet.ts';
export { type NamedFile, nameFiles } from './name-files.ts';
export {
  defaultTemplate,
  fillTemplate,
  type NameValues,
  type Placeholder,
  placeholders,
  placeholdersOf,
} from './name-template.ts';
export { planSize, type SizePlan, type SizeWish } from './plan-size.ts';
export { planSurround, type Surround } from './plan-surround.ts';
export { type ReadSpecification, readSpecification, readSpecificationText } from './read-specification.ts';
export {
  type CutWord,
  cutWords,
  findingsOfWords,
  holdsIim,
  type SaidWord,
  saidWords,
  withPrivateFields,
} from './said-words.ts';
export { withShotsRenamed } from './shots-renamed.ts';
export {
  type DeliverySize,
  type MetadataField,
  metadataFields,
  type PrivateField,
  privateFields,
  type Specification,
  specificationSchema,
} from './specification.ts';
export { hasWords, type WordsFrame, wordsOfFrame } from './words-of-frame.ts';
export { wordsRoomFindings } from './words-room.ts';
