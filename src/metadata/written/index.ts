/** What is written into pictures that are handed over: words to tags, and whether a file says them. */
export { type AllowedPrivate, differencesIn } from './compare-written.ts';
export { type IimDataset, iimBytesMax } from './iim.ts';
export {
  digitalSourceTypes,
  noContact,
  noPictureWords,
  nowhere,
  type PictureWords,
  type WrittenContact,
  type WrittenPlace,
} from './picture-words.ts';
export { type TagStruct, type TagValue, tagsOfWords, type WrittenTags } from './tags-of-words.ts';
