import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of second places. Codes `copy.*` come from keep. */
export const copySentences: SentenceTable = {
  'copy.away': (args) =>
    `The second place ${textArg(args, 'folder')} is not there. Connect it: what is missing is copied by itself.`,
  'copy.silent': (args) =>
    `The second place ${textArg(args, 'folder')} does not answer. Look at its cable or its network; everything is still safe here.`,
  'copy.foreign': (args) =>
    `${textArg(args, 'folder')} is the second place of another station. Nothing is copied there: choose another folder.`,
  'copy.full': (args) =>
    `The second place ${textArg(args, 'folder')} is full. Make room there, or connect a larger one.`,
  'copy.failed': (args) =>
    `Nothing can be written to the second place ${textArg(args, 'folder')} (${textArg(args, 'why')}). It is tried again by itself.`,
  'copy.same-device': (args) =>
    `The second place ${textArg(args, 'folder')} lies on the same disk as the originals: if that fails, both are gone. Choose a folder on another disk.`,
  'copy.missing': (args) =>
    `Missing: the copy of ${textArg(args, 'original')} is not in ${textArg(args, 'folder')} any more.`,
  'copy.altered': (args) =>
    `Altered: the copy of ${textArg(args, 'original')} in ${textArg(args, 'folder')} does not hold the bytes that the camera sent.`,
  'copy.unreadable': (args) =>
    `Unreadable: the copy of ${textArg(args, 'original')} in ${textArg(args, 'folder')} cannot be read (${textArg(args, 'why')}). Check that disk.`,
  'copy.lost': (args) => {
    const count = numberArg(args, 'count');
    const what = count === 1 ? 'One copy is' : `${count} copies are`;
    return `${what} not in the second place ${textArg(args, 'folder')} any more, or not as made. New ones are made by themselves; until then those frames are in one place less.`;
  },
  'copy.not-set-aside': (args) =>
    `The copy of ${textArg(args, 'original')} in ${textArg(args, 'folder')} cannot be set aside (${textArg(args, 'why')}). Check that disk.`,
  'copy.original-missing': (args) =>
    `${textArg(args, 'original')} is not on the disk any more and cannot be copied. Look for it before the card is wiped.`,
  'copy.original-differs': (args) =>
    `${textArg(args, 'original')} does not hold the bytes that the camera sent, and was not copied. Keep the card, and run: setside verify.`,
  'copy.differs': (args) =>
    `What was copied of ${textArg(args, 'original')} to ${textArg(args, 'folder')} reads back wrong. It is tried again; check that disk and its cable.`,
  'copy.journal-differs': (args) =>
    `What was copied of the journal to ${textArg(args, 'folder')} reads back wrong. It is tried again; check that disk and its cable.`,
};
