import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of memory cards that are held against what has arrived. Codes `card.*` come from keep. */
export const cardSentences: SentenceTable = {
  'card.gone': (args) =>
    `The card went away after ${numberArg(args, 'done')} of ${numberArg(args, 'count')} files. What was proved by then stays true; put it back in ${textArg(args, 'folder')} and check again for the rest.`,
  'card.failed': (args) =>
    `${textArg(args, 'folder')} could not be checked (${textArg(args, 'why')}). Keep the card, and try again.`,
  'card.empty': (args) =>
    `There is no file in ${textArg(args, 'folder')}. Name the folder that the card is shown under.`,
  'card.is-home': (args) =>
    `${textArg(args, 'folder')} lies on the same disk as the home, so it is no card, or a copy of one. Put the card itself in, and name its folder.`,
  'card.is-place': (args) =>
    `The second place ${textArg(args, 'folder')} lies on the card itself: it counts for nothing here.`,
  'card.unread': (args) =>
    `Cannot be read from the card: ${textArg(args, 'path')} (${textArg(args, 'why')}). Keep the card, and try another reader.`,
  'card.original-bad': (args) =>
    `The original ${textArg(args, 'original')} is gone, altered or cannot be read. Keep the card, and run: setside verify.`,
  'card.no-copy': (args) =>
    `${textArg(args, 'folder')} has no sound copy of ${textArg(args, 'original')}. A running station makes one by itself; setside verify --mend has bad ones made anew.`,
};
