import {
  type Args,
  durationPhrase,
  numberArg,
  type SentenceTable,
  sharePhrase,
  sizePhrase,
  textArg,
} from './phrases.ts';

/** What is said of a file on its way in. Codes `arrived.*` come from judge. */
export const arrivalSentences: SentenceTable = {
  'arrived.arriving': (args) => {
    const expected = numberArg(args, 'expectedBytes');
    const here = sizePhrase(numberArg(args, 'bytes'));
    return expected > 0
      ? `Arriving: ${here} of ${sizePhrase(expected)}, ${sharePhrase(numberArg(args, 'bytes'), expected)}.`
      : `Arriving: ${here} so far, of an unknown total.`;
  },
  'arrived.whole': (args) =>
    `Whole: ${sizePhrase(numberArg(args, 'bytes'))}${tookPhrase(args)}, safe in ${placesPhrase(numberArg(args, 'places'))}.`,
  'arrived.same-device': (args) =>
    `Whole, ${sizePhrase(numberArg(args, 'bytes'))}${tookPhrase(args)}; its copy lies on the same disk, or in memory, and does not count.`,
  'arrived.one-place': (args) =>
    `Whole, ${sizePhrase(numberArg(args, 'bytes'))}${tookPhrase(args)}, but in one place only.`,
  'arrived.copy-bad': (args) => {
    const places = numberArg(args, 'places');
    const safe = places > 1 ? `Safe in ${placesPhrase(places)}` : 'Here';
    return `${safe}, but the copy in ${textArg(args, 'folder')} does not hold the same bytes. To have a new one made, run: setside verify --mend.`;
  },
  'arrived.unproved': (args) =>
    `Kept, ${sizePhrase(numberArg(args, 'bytes'))}; whether it is whole cannot be told from this kind of file.`,
  'arrived.broken-off': (args) => {
    const expected = numberArg(args, 'expectedBytes');
    const here = sizePhrase(numberArg(args, 'bytes'));
    const share =
      expected > 0
        ? ` of ${sizePhrase(expected)} (${sharePhrase(numberArg(args, 'bytes'), expected)})`
        : ' of an unknown total';
    const cure =
      textArg(args, 'via') === 'folder'
        ? 'it is copied anew by itself as soon as its card or folder can be read'
        : 'send it again from the camera, or let the camera resume';
    return `Broken off after ${here}${share}: ${cure}.`;
  },
  'arrived.damaged': (args) => {
    const expected = numberArg(args, 'expectedBytes');
    const bytes = numberArg(args, 'bytes');
    const share = expected > 0 ? `at ${sharePhrase(bytes, expected)}` : `after ${sizePhrase(bytes)}`;
    return `Damaged: cut short ${share}, and that is all there was to get. Check the card.`;
  },
  'arrived.original-missing': (args) =>
    `Missing: the original is not on the disk any more. ${rescuePhrase(args)}`,
  'arrived.original-differs': (args) =>
    `Altered on the disk: the original does not hold the bytes that the camera sent. ${rescuePhrase(args)}`,
  'arrived.original-unreadable': (args) =>
    `Unreadable: the disk does not give the original back. ${rescuePhrase(args)}`,
  'arrived.raw-missing': () => 'The raw of this frame has not come; the camera is set to send both.',
  'arrived.jpeg-missing': () => 'The JPEG of this frame has not come.',
  'arrived.empty': () => 'The file is empty: 0 bytes arrived. Check the card.',
  'judge.not-measured': () => 'Not measured yet.',
};

/** What is left of a file whose original is bad. */
function rescuePhrase(args: Args): string {
  const folder = textArg(args, 'folder');
  return folder === ''
    ? 'Keep the card: no copy is known.'
    : `Keep the card; a copy that was read back lies in ${folder}. Put it back on the Hand-over page, or run: setside restore.`;
}

/** Small numbers are read faster as words. */
function placesPhrase(count: number): string {
  return count === 2 ? 'two places' : count === 3 ? 'three places' : `${count} places`;
}

function tookPhrase(args: Args): string {
  const ms = numberArg(args, 'ms');
  return ms > 0 ? ` in ${durationPhrase(ms)}` : '';
}
