import { type SentenceTable, textArg } from './phrases.ts';

/** What the station says of itself. Codes `station.*`. */
export const stationSentences: SentenceTable = {
  'station.cannot-keep-awake': () =>
    'This computer cannot be kept awake from here: switch its sleep off while you shoot.',
  'station.trouble': (args) =>
    `Something went wrong: ${textArg(args, 'message')} (${textArg(args, 'code')}).`,
};
