import { numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';
import { keepCardAndSee } from './way-back.ts';

/** What is said of the files on the disk. Codes `keep.*` come from keep. */
export const keepSentences: SentenceTable = {
  'keep.journal-damaged': (args) => {
    const count = numberArg(args, 'count');
    const entries = count === 1 ? 'One entry' : `${count} entries`;
    const cure =
      textArg(args, 'by') === 'verify'
        ? ''
        : ' To see which second place holds them and how to put them back, run: setside verify.';
    return `${entries} of the journal cannot be read (from number ${numberArg(args, 'seqFrom')}). Nothing was deleted, and the originals lie where they lay.${cure}`;
  },
  'keep.journal-strays': (args) => {
    const count = numberArg(args, 'count');
    return count === 1
      ? 'One entry of the journal does not fit what came before it; the file it speaks of may be listed as unknown.'
      : `${count} entries of the journal do not fit what came before them; the files they speak of may be listed as unknown.`;
  },
  'keep.home-in-memory': (args) =>
    `The home ${textArg(args, 'home')} lies in memory, not on a disk: whatever is kept there goes with the power, and cameras are told that it is safe. Choose a folder on a disk with --home.`,
  'keep.original-missing': (args) => `Missing: ${textArg(args, 'original')} is not on the disk any more.`,
  'keep.original-size': (args) =>
    `Wrong size: ${textArg(args, 'original')} has ${sizePhrase(numberArg(args, 'sizeBytes'))}, ${sizePhrase(numberArg(args, 'expectedBytes'))} were kept.`,
  'keep.original-altered': (args) =>
    `Altered: ${textArg(args, 'original')} does not hold the bytes that the camera sent.`,
  'keep.originals-bad': (args) => {
    const others = numberArg(args, 'count') - 1;
    const which =
      others > 0
        ? `${textArg(args, 'original')} and ${others === 1 ? 'one more' : `${others} more`} are`
        : `${textArg(args, 'original')} is`;
    return `${which} not on the disk as the camera sent ${others > 0 ? 'them' : 'it'}. ${keepCardAndSee(others > 0)}`;
  },
  'keep.put-back': (args) => {
    const aside = textArg(args, 'aside');
    const put = `${textArg(args, 'original')} is back as the camera sent it, from ${textArg(args, 'folder')}.`;
    return aside === '' ? put : `${put} What lay there was moved to ${aside}.`;
  },
  'keep.put-back-not-needed': (args) =>
    `${textArg(args, 'original')} is as the camera sent it: nothing was done.`,
  'keep.put-back-failed': (args) =>
    `${textArg(args, 'original')} was not put back: the disk of the home does not take it (${textArg(args, 'why')}). Check that disk, and try again.`,
  'keep.kept-anew': (args) =>
    `${textArg(args, 'original')} does not hold the bytes that the camera sent, or cannot be read. The camera has sent them again: they are kept as ${textArg(args, 'path')}. They take its place; the file that was there stays beside it.`,
  'keep.kept-anew-gone': (args) =>
    `${textArg(args, 'original')} is not on the disk any more. The camera has sent the same bytes again: they are kept as ${textArg(args, 'path')} and take its place.`,
  'keep.original-replaced': (args) =>
    `Replaced: ${textArg(args, 'original')} was gone or altered when the camera sent the same bytes again. They are kept beside it; nothing has to be done.`,
  'keep.verified-untold': (args) =>
    `The page cannot be told what was found: nothing can be written in ${textArg(args, 'home')} (${textArg(args, 'why')}).`,
  'keep.original-unreadable': (args) =>
    `Unreadable: ${textArg(args, 'original')} cannot be read (${textArg(args, 'why')}). Check the disk.`,
};
