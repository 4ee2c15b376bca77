import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of memory cards that are held against what has arrived. Codes `card.*` come from keep. */
export const cardSentences: SentenceTable = {
  'card.gone': (args) =>
    `The card went away after ${numberArg(args, 'done')} of ${numberArg(args, 'count')} files. What was proved by then stays true; put it back in ${textArg(args, 'folder')} and check again for the rest.`,
  'card.changed': (args) =>
    `What is in ${textArg(args, 'folder')} now is not what was checked: another card, or there is more or less on it. Check again before anything is wiped.`,
  'card.away': (args) =>
    `The card is no longer in ${textArg(args, 'folder')}. What was found holds for that card as it was; put it in and check again before it is wiped.`,
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
