/** words: findings to sentences. No other room builds prose. */
export { durationPhrase, sizePhrase } from './phrases.ts';
export { knownCodes, type Language, sentence } from './sentences.ts';
