import { durationPhrase, numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of slates, clocks and grey cards that were held into the picture. Codes `slate.*`. */
export const slateSentences: SentenceTable = {
  'slate.slate-now': (args) => `Slate seen: now shooting ${textArg(args, 'name')}.`,
  'slate.slate-from-here': (args) =>
    `Slate seen: from this frame on ${textArg(args, 'name')}, up to the next change.`,
  'slate.grey-card-now': (args) => `Grey card seen: now shooting ${textArg(args, 'name')}.`,
  'slate.grey-card-from-here': (args) =>
    `Grey card seen: from this frame on ${textArg(args, 'name')}, up to the next change.`,
  'slate.grey-card-again': () => 'The same grey card once more: the shot stays.',
  'slate.grey-card-seen': () => 'A grey card, while its job is not open: nothing was changed.',
  'slate.no-next-shot': () => 'Grey card seen, but there is no shot after this one.',
  'slate.rehearsal': (args) =>
    `A rehearsal of ${textArg(args, 'camera')}’s way came through: its picture is set apart as a test.`,
  'slate.several': (args) =>
    `${numberArg(args, 'count')} different slates are in this picture and none lies at its middle: nothing was changed.`,
  'slate.unknown-job': (args) =>
    `The slate is of job ${textArg(args, 'job')}, which this station does not know: nothing was changed.`,
  'slate.other-job': (args) =>
    `The slate is of job ${textArg(args, 'job')}, which is not open: nothing was changed.`,
  'slate.unknown-shot': (args) =>
    `The slate is of shot “${textArg(args, 'shot')}”, which is not on the list: nothing was changed.`,
  'slate.too-late': () => 'A slate of an earlier day: nothing was changed.',
  'slate.taken-back': (args) => `The slate of ${textArg(args, 'name')} was taken back.`,
  'slate.clock': (args) => {
    const aheadMs = numberArg(args, 'aheadMs');
    const plusMinus = durationPhrase(numberArg(args, 'plusMinusMs'));
    return `${textArg(args, 'camera')}’s clock is ${durationPhrase(Math.abs(aheadMs))} ${
      aheadMs < 0 ? 'behind' : 'ahead'
    }, give or take ${plusMinus}.`;
  },
  'slate.clock-without-time': (args) =>
    `${textArg(args, 'camera')} photographed the clock, but wrote no time into its file.`,
};
