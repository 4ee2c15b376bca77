/** metadata: what tags and names mean: camera, lens, exposure, time, orientation, counter. */
export { captureFactsOf } from './capture-facts-of.ts';
export { counterOf, isDcfDirectoryName, isDcfFileName } from './dcf-name.ts';
export { type ExifMoment, exifMomentOf } from './exif-time.ts';
export type { MetadataReader } from './metadata-reader.ts';
export { cleanText, textCharactersMax } from './text.ts';
