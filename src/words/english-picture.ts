import { type SentenceTable, textArg } from './phrases.ts';

/** Why a frame is shown as it is. Codes `picture.*` come from station and develop. */
export const pictureSentences: SentenceTable = {
  'picture.no-layout': (args) => `${textArg(args, 'name')} has no layout picture.`,
  'picture.not-a-picture': (args) =>
    `${textArg(args, 'name')} is kept safe, but it is not a picture (${textArg(args, 'kind')}).`,
  'picture.unknown-kind': (args) =>
    `${textArg(args, 'name')} is kept safe; what it holds is not known to this station.`,
  'picture.cannot-develop': (args) =>
    `${textArg(args, 'name')} is kept safe, but its raw data cannot be developed here: ${reasonPhrase(textArg(args, 'why'))}.`,
  'picture.cannot-show': (args) =>
    `${textArg(args, 'name')} is kept safe, but it cannot be shown here: ${reasonPhrase(textArg(args, 'why'))}.`,
  'picture.not-whole': (args) =>
    `${textArg(args, 'name')} is not whole, so it is not developed; what arrived is kept.`,
  'picture.original-gone': (args) =>
    `${textArg(args, 'name')} is not on the disk any more. Keep the card, and run: setside verify. It says which copy holds it.`,
  'picture.not-yet': (args) => `${textArg(args, 'name')} has no rendering yet.`,
  'picture.empty': (args) => `${textArg(args, 'name')} is empty.`,
};

/** Why a picture could not be made, after the codes of develop and workers. A code without words is shown as it is. */
function reasonPhrase(why: string): string {
  switch (why) {
    case 'raw-cannot-decode':
      return 'how its camera packs it is not known to this station. Choose another compression for raw files on the camera, or have it write a JPEG too';
    case 'raw-too-small':
      return 'its picture is too small to be decoded here';
    case 'raw-cut':
      return 'the file ends before it does. Send it from the camera again, or copy it from the card';
    case 'raw-unsupported-mosaic':
      return 'its sensor sees colour by another pattern than red, green and blue in squares of four';
    case 'raw-too-large':
    case 'picture-too-large':
      return 'it has more pixels than this station renders';
    case 'picture-cannot-decode':
      return 'what it holds makes no picture';
    case 'picture-is-raw':
      return 'there is raw data in it of a kind not known to this station';
    case 'worker-crashed':
      return 'the work on it broke down';
    case 'worker-too-slow':
      return 'the work on it took too long';
    case 'ENOENT':
      return 'its file is not on the disk any more';
    case 'EIO':
    case 'EACCES':
      return 'its file cannot be read. Check the disk';
    case 'ENOSPC':
      return 'the disk is full';
    default:
      return why === '' ? 'for a reason that was not noted' : why;
  }
}
