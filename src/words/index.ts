/** words: findings to sentences. No other room builds prose. */
export { frameSentence } from './frame-sentence.ts';
export { judgementNames, markNames, questionNames } from './names.ts';
export { durationPhrase, sizePhrase, spanPhrase } from './phrases.ts';
export { knownCodes, type Language, sentence } from './sentences.ts';
