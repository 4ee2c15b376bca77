import { type SentenceTable, textArg } from './phrases.ts';

/** What the station says of itself. Codes `station.*`. */
export const stationSentences: SentenceTable = {
  'station.trouble': (args) =>
    `Something went wrong: ${textArg(args, 'message')} (${textArg(args, 'code')}).`,
};
