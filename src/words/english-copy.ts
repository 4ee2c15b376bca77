import { type Args, isSeveral, numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';
import { keepCardAndSee } from './way-back.ts';

/** What is said of second places. Codes `copy.*` come from keep. */
export const copySentences: SentenceTable = {
  'copy.away': (args) =>
    isSeveral(args)
      ? `${placePhrase(args)} are not there. Connect them: what is missing is copied by itself.`
      : `${placePhrase(args)} is not there. Connect it: what is missing is copied by itself.`,
  'copy.silent': (args) =>
    isSeveral(args)
      ? `${placePhrase(args)} do not answer. Look at their cables or their network; everything is still safe here.`
      : `${placePhrase(args)} does not answer. Look at its cable or its network; everything is still safe here.`,
  'copy.foreign': (args) =>
    isSeveral(args)
      ? `${textArg(args, 'folder')} are second places of another station. Nothing is copied there: choose other folders.`
      : `${textArg(args, 'folder')} is the second place of another station. Nothing is copied there: choose another folder.`,
  'copy.full': (args) =>
    isSeveral(args)
      ? `${placePhrase(args)} are full${floorPhrase(args)}. Make room there, or connect larger ones.`
      : `${placePhrase(args)} is full${floorPhrase(args)}. Make room there, or connect a larger one.`,
  'copy.over': (args) => `${placePhrase(args)} ${overPhrase(textArg(args, 'what'))}`,
  'copy.failed': (args) =>
    `Nothing can be written to ${placePhrase(args, 'the')} (${textArg(args, 'why')}). It is tried again by itself.`,
  'copy.same-device': (args) =>
    isSeveral(args)
      ? `${placePhrase(args)} lie on the same disk as the originals: if that fails, all are gone. Choose folders on another disk.`
      : `${placePhrase(args)} lies on the same disk as the originals: if that fails, both are gone. Choose a folder on another disk.`,
  'copy.in-memory': (args) =>
    isSeveral(args)
      ? `${placePhrase(args)} lie in memory, not on a disk: when the power goes, so do they, and they count for nothing. Choose folders on another disk.`
      : `${placePhrase(args)} lies in memory, not on a disk: when the power goes, so does it, and it counts for nothing. Choose a folder on another disk.`,
  'copy.missing': (args) =>
    `Missing: the copy of ${textArg(args, 'original')} is not in ${textArg(args, 'folder')} any more.`,
  'copy.size': (args) =>
    `Wrong size: the copy of ${textArg(args, 'original')} in ${textArg(args, 'folder')} has ${sizePhrase(numberArg(args, 'sizeBytes'))}, ${sizePhrase(numberArg(args, 'expectedBytes'))} were kept.`,
  'copy.holds-original': (args) =>
    `A good copy of ${textArg(args, 'original')} lies in ${textArg(args, 'folder')}, below the same name. Keep the card. To put it back, run: setside restore.`,
  'copy.none-holds-original': (args) =>
    `No second place that could be read holds ${textArg(args, 'original')} as the camera sent it. Keep the card, and send the file again from the camera.`,
  'copy.away-for-original': (args) =>
    `${placePhrase(args)} is not there and may hold ${textArg(args, 'original')}: connect it, and try again.`,
  'copy.holds-journal': (args) =>
    `${textArg(args, 'folder')} holds ${textArg(args, 'name')} of the journal, which cannot be read here. To put it back: stop the station, move ${textArg(args, 'name')} out of ${textArg(args, 'home')}/journal if it is there, copy it from ${textArg(args, 'folder')}/journal to there, and start the station. Then run again: setside verify.`,
  'copy.none-holds-journal': () =>
    'No second place that could be read holds those entries. The originals are untouched; what the entries said of them (a mark, a name, that a file is whole) is lost. Keep the card, and look through the frames of that time.',
  'copy.altered': (args) =>
    `Altered: the copy of ${textArg(args, 'original')} in ${textArg(args, 'folder')} does not hold the bytes that the camera sent.`,
  'copy.found-bad': (args) => {
    const count = numberArg(args, 'count');
    const what = isSeveral(args) ? 'Copies' : count === 1 ? 'One copy' : `${count} copies`;
    return `${what} in ${placePhrase(args, 'the')} ${what === 'One copy' ? 'does' : 'do'} not hold what the camera sent. To have new ones made, run: setside verify --mend. Check that disk.`;
  },
  'copy.journal-found-bad': (args) =>
    `The copy of the journal in ${placePhrase(args, 'the')} does not hold what the journal does. To have a new one made, run: setside verify --mend. Check that disk.`,
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
  'copy.original-unreadable': (args) =>
    `${textArg(args, 'original')} cannot be read (${textArg(args, 'why')}), and was not copied. Keep the card, and check the disk of the originals.`,
  'copy.originals-bad': (args) => {
    const others = numberArg(args, 'count') - 1;
    const which =
      others > 0
        ? `${textArg(args, 'original')} and ${others === 1 ? 'one more' : `${others} more`} are`
        : `${textArg(args, 'original')} is`;
    return `${which} not on the disk as the camera sent ${others > 0 ? 'them' : 'it'}, and cannot be copied. ${keepCardAndSee(others > 0)}`;
  },
  'copy.differs': (args) =>
    `What was copied of ${textArg(args, 'original')} to ${textArg(args, 'folder')} reads back wrong. It is tried again; check that disk and its cable.`,
  'copy.journal-missing': (args) =>
    `Missing: ${textArg(args, 'name')} of the journal is not in ${textArg(args, 'folder')} any more.`,
  'copy.journal-altered': (args) =>
    `Altered: the copy of ${textArg(args, 'name')} of the journal in ${textArg(args, 'folder')} does not hold what the journal does.`,
  'copy.journal-unreadable': (args) =>
    `Unreadable: the copy of ${textArg(args, 'name')} of the journal in ${textArg(args, 'folder')} cannot be read (${textArg(args, 'why')}). Check that disk.`,
  'copy.journal-differs': (args) =>
    `What was copied of the journal to ${textArg(args, 'folder')} reads back wrong. It is tried again; check that disk and its cable.`,
};

function placePhrase(args: Args, article = 'The'): string {
  return `${article} second ${isSeveral(args) ? 'places' : 'place'} ${textArg(args, 'folder')}`;
}

/** What looks free and is not: a copy has to leave room for the journal. */
function floorPhrase(args: Args): string {
  const floorBytes = numberArg(args, 'floorBytes');
  return floorBytes > 0 ? `: a copy there must leave ${sizePhrase(floorBytes)} free, for the journal` : '';
}

/** What a second place does again, by what was wrong with it. */
function overPhrase(what: string): string {
  switch (what) {
    case 'silence':
      return 'answers again.';
    case 'place':
      return 'is there again: what is missing is copied by itself.';
    case 'look':
      return 'can be looked through again.';
    case 'full':
      return 'has room again.';
    case 'journal':
      return 'takes the journal again.';
    case 'idle':
      return 'has nothing left to take: nothing waits to be copied there.';
    default:
      return 'takes copies again.';
  }
}
