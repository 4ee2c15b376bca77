/** metadata: what tags and names mean: camera, lens, exposure, time, orientation, counter. */
export { captureFactsOf } from './capture-facts-of.ts';
export { counterOf, isDcfDirectoryName, isDcfFileName } from './dcf-name.ts';
export { type MetadataErrorCode, metadataError, metadataErrorCodes } from './errors.ts';
export { type ExifMoment, exifMomentOf, type KnownMoment } from './exif-time.ts';
export { factsOfReport, reportTags } from './facts-of-report.ts';
export { focusRegionOf } from './focus-region.ts';
export type { MetadataReader } from './metadata-reader.ts';
export type { MetadataWriter, TakenOver, WriteWish } from './metadata-writer.ts';
export { sidecarTags, sidecarWordsOf } from './sidecar-words-of.ts';
export { cleanText, textCharactersMax } from './text.ts';
export { noInstance, type SidecarFacts, sidecarTool, writeXmp } from './write-xmp.ts';
export {
  type AllowedPrivate,
  differencesIn,
  digitalSourceTypes,
  type IimDataset,
  iimBytesMax,
  noContact,
  noPictureWords,
  nowhere,
  type PictureWords,
  type TagStruct,
  type TagValue,
  tagsOfWords,
  type WrittenContact,
  type WrittenPlace,
  type WrittenTags,
} from './written/index.ts';
export { writeXmpRating } from './xmp-rating.ts';
