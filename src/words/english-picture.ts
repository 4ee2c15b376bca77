import { type SentenceTable, textArg } from './phrases.ts';
import { causeAndCure } from './why-not-made.ts';

/** Why a frame is shown as it is. Codes `picture.*` come from station and develop. */
export const pictureSentences: SentenceTable = {
  'picture.no-layout': (args) => `${textArg(args, 'name')} has no layout picture.`,
  'picture.not-a-picture': (args) =>
    `${textArg(args, 'name')} is kept safe, but it is not a picture (${textArg(args, 'kind')}).`,
  'picture.unknown-kind': (args) =>
    `${textArg(args, 'name')} is kept safe; what it holds is not known to this station.`,
  'picture.cannot-develop': (args) =>
    `${textArg(args, 'name')} is kept safe, but its raw data cannot be developed here: ${causeAndCure(textArg(args, 'why'))}.`,
  'picture.cannot-show': (args) =>
    `${textArg(args, 'name')} is kept safe, but it cannot be shown here: ${causeAndCure(textArg(args, 'why'))}.`,
  'picture.not-whole': (args) =>
    `${textArg(args, 'name')} is not whole, so it is not developed; what arrived is kept.`,
  'picture.original-gone': (args) =>
    `${textArg(args, 'name')} is not on the disk any more. Keep the card, and run: setside verify. It says which copy holds it.`,
  'picture.not-yet': (args) => `${textArg(args, 'name')} has no rendering yet.`,
  'picture.empty': (args) => `${textArg(args, 'name')} is empty.`,
};
