import { copySpaceSides } from '../facts/index.ts';
import { sideWords } from './client-labels.ts';
import { type Args, numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';
import { causePhrase, cureOfFile } from './why-not-made.ts';

/** What is to be said of specifications and of what is made by them. Codes `deliver.*` come from the room deliver, `metadata.*` of the files of kept sheets from station. */
export const deliverSentences: SentenceTable = {
  'deliver.too-long': (args) =>
    `The document is too long: at most ${numberArg(args, 'charactersMax')} characters are read.`,
  'metadata.not-read': (args) => `The station could not read it (${textArg(args, 'error')}).`,
  'metadata.same-title': (args) =>
    `It has the title of another, ${textArg(args, 'title')}, which lies in ${textArg(args, 'other')}.`,
  'deliver.no-json': () => 'This is not a JSON document.',
  'deliver.too-small': (args) => `${textArg(args, 'member')} is below its least, ${numberArg(args, 'min')}.`,
  'deliver.too-large': (args) => `${textArg(args, 'member')} is above its most, ${numberArg(args, 'max')}.`,
  'deliver.too-short': (args) =>
    numberArg(args, 'min') <= 1
      ? `${textArg(args, 'member')} is empty; something has to stand there.`
      : `${textArg(args, 'member')} is too short: at least ${numberArg(args, 'min')}.`,
  'deliver.wrong-kind': (args) =>
    `${textArg(args, 'member')} is missing, or of another kind: ${kinds[textArg(args, 'expected')] ?? 'docs/delivery.schema.json and docs/metadata.schema.json say what'} has to stand there.`,
  'deliver.not-one-of': (args) =>
    `${textArg(args, 'member')} is missing, or none of what may stand there${textArg(args, 'values') === '' ? '; docs/delivery.schema.json and docs/metadata.schema.json name that' : `: ${textArg(args, 'values')}`}.`,
  'deliver.wrong-form': (args) =>
    `${textArg(args, 'member')} is not written as it has to be${textArg(args, 'format') === 'url' ? ': a whole address, such as https://pictures.example/rights' : '; docs/delivery.schema.json and docs/metadata.schema.json say how'}.`,
  'deliver.unknown-member': (args) =>
    `${textArg(args, 'member')} has nothing by the name of ${textArg(args, 'names')}: docs/delivery.schema.json says what there is of a specification, docs/metadata.schema.json of words for files.`,
  'deliver.bad-member': (args) =>
    `${textArg(args, 'member')}: ${textArg(args, 'problem').replace(/\.$/, '')}.`,
  'deliver.too-few-pixels': (args) =>
    `Smaller than asked for: the picture has ${numberArg(args, 'percent')} % of the pixels along an edge that it would need, and is not enlarged${sizeOf(args)}.`,
  'deliver.stands-small': (args) =>
    `The picture stands small in the frame: it has ${numberArg(args, 'percent')} % of the pixels along an edge that it would need, and is not enlarged. The file is as large as asked for${sizeOf(args)}.`,
  'deliver.enlarged': (args) =>
    `Enlarged to ${numberArg(args, 'percent')} % along an edge, since the specification allows it${sizeOf(args)}.`,
  'deliver.no-subject': (args) =>
    `What is photographed was not told from its background, so that it does not fill ${numberArg(args, 'percent')} % of the frame: the whole picture is taken.`,
  'deliver.subject-not-looked-for': (args) =>
    `Whether what is photographed fills ${numberArg(args, 'percent')} % of the frame is looked at when the file is made; where it cannot be told from its background, the whole picture is taken.`,
  'deliver.fuller-than-asked': (args) =>
    numberArg(args, 'percent') > 100
      ? 'The subject is cut: in this shape there is not enough picture around it. Let the background be extended, or step back.'
      : `The subject fills ${Math.round(numberArg(args, 'percent'))} % of the frame, more than was asked for: there is no picture around it. Let the background be extended, or step back.`,
  'deliver.subject-in-words-room': (args) =>
    `What is photographed stands in the copy space${sidePhrase(args)} and takes ${numberArg(args, 'percent')} % of its depth. The file is as asked for; move the words, or choose another frame.`,
  'deliver.words-room-not-told': (args) =>
    `Whether the copy space${sidePhrase(args)} is free could not be told: what is photographed does not stand out from its background.`,
  'deliver.not-extended': (args) =>
    `The backdrop was not continued: it is not plain to the edge (${textArg(args, 'sides')}), and nothing is made up. Leave more room around the subject, or ask for a shape that the picture has.`,
  'deliver.background-not-white': (args) =>
    `The background is not white to the edge: ${percentPhrase(numberArg(args, 'percent'))} of the border is darker than ${numberArg(args, 'wanted')} of 255, the darkest value there is ${numberArg(args, 'least')}.`,
  'deliver.words-unknown': (args) =>
    `Nobody said ${textArg(args, 'names')}: it was left out of the words in the file.${rightsPhrase(args)} Say it on the Job page or in the words.`,
  'deliver.iim-cut': (args) =>
    `The old fields of IPTC hold less than was said: ${textArg(args, 'names')} ${textArg(args, 'names').includes(',') ? 'are' : 'is'} cut there, and whole in XMP.`,
  'deliver.no-iim': (args) =>
    `${textArg(args, 'format').toUpperCase()} has no place for the old fields of IPTC: the words are there as XMP and Exif.`,
  'deliver.no-original': () => 'There is no original of this frame that was kept.',
  'deliver.not-rendered': (args) =>
    `${textArg(args, 'name')} has not been rendered yet. Deliver again once the page shows it.`,
  'deliver.damaged-original': (args) =>
    `${textArg(args, 'name')} is not what the camera sent any more: the disk gives other bytes than were kept. It was not delivered. ${copyOf(args)}`,
  'deliver.from-copy': (args) =>
    `The original ${textArg(args, 'name')} is ${textArg(args, 'what') === 'damaged' ? 'damaged: the disk gives other bytes than were kept' : 'not to be read any more'}. This file was made from the copy in ${textArg(args, 'folder')}, which is good. Put it back from there, and run: setside verify.`,
  'deliver.missing-original': (args) =>
    `${textArg(args, 'name')} is not on the disk any more. ${copyOf(args)}`,
  'deliver.unreadable-original': (args) =>
    `${textArg(args, 'name')} cannot be read (${textArg(args, 'why')}). Run: setside verify.`,
  'deliver.too-many-bytes': (args) =>
    `${textArg(args, 'name')} has more than ${sizePhrase(numberArg(args, 'bytesMax'))} even at the least quality that is allowed. Allow more bytes, or fewer pixels.`,
  'deliver.failed': (args) =>
    `No file was made of ${textArg(args, 'name')}: ${causePhrase(textArg(args, 'why'))}. ${cureOfFile(textArg(args, 'why'))} The others are not held up by it.`,
  'deliver.cannot-write': (args) =>
    `The delivery waits, since nothing can be written to its folder (${textArg(args, 'why')}). Make room or mend the rights there, and let it go on.`,
};

/** Kinds of values of JSON. */
const kinds: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'members in { }',
};

function copyOf(args: Args): string {
  const folder = textArg(args, 'folder');
  return folder === '?' || folder === ''
    ? 'No copy of it is known: send it again from the camera, and run setside verify.'
    : `The copy in ${folder} cannot be used either: setside verify says what is wrong with it.`;
}

/** Which rights are not in the file at all, after the names of metadata fields; one with a hole in it would say something else. */
function rightsPhrase(args: Args): string {
  const rights = textArg(args, 'rights').replace('usage-terms', 'usage terms');
  if (rights === '' || rights === '?') return '';
  return ` Left out whole, since nothing is said with a hole in it: ${rights}.`;
}

/** A little is more than nothing. */
function percentPhrase(percent: number): string {
  return percent < 1 ? 'less than 1 %' : `${Math.round(percent)} %`;
}

function sizeOf(args: Args): string {
  return `: ${numberArg(args, 'widthPx')} x ${numberArg(args, 'heightPx')} pixels`;
}

function sidePhrase(args: Args): string {
  const side = copySpaceSides.find((each) => each === textArg(args, 'side'));
  return side === undefined ? '' : `, ${sideWords[side]},`;
}
