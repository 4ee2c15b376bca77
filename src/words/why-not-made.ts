/** Why no picture or file was made, and what a person can do. Neither ends with a full stop. */
interface Why {
  readonly cause: string;
  readonly cure: string;
}

const checkDisk = 'Check the disk, and run: setside verify';

/** By the codes of develop, metadata, workers and the system. */
const whys: Readonly<Record<string, Why>> = {
  'raw-cannot-decode': {
    cause: 'how its camera packs it is not known to this station',
    cure: 'Choose another compression for raw files on the camera, or have it write a JPEG too',
  },
  'raw-too-small': { cause: 'its picture is too small to be decoded here', cure: '' },
  'raw-cut': {
    cause: 'the file ends before it does',
    cure: 'Send it from the camera again, or copy it from the card',
  },
  'raw-unsupported-mosaic': {
    cause: 'its sensor sees colour by another pattern than red, green and blue in squares of four',
    cure: 'Have the camera write a JPEG too',
  },
  'raw-too-large': { cause: 'it has more pixels than this station renders', cure: '' },
  'picture-too-large': { cause: 'it has more pixels than this station renders', cure: '' },
  'picture-cannot-decode': { cause: 'what it holds makes no picture', cure: '' },
  'picture-is-raw': { cause: 'there is raw data in it of a kind not known to this station', cure: '' },
  'picture-not-raw': { cause: 'it is a finished picture, and there is no raw data in it', cure: '' },
  'not-a-picture': { cause: 'it is no picture', cure: '' },
  'file-empty': { cause: 'there is not a byte in it', cure: 'Copy it from the card' },
  'region-outside': {
    cause: 'nothing of what is cut out of it lies in the picture',
    cure: 'Look at the crop of its look',
  },
  'bad-profile': {
    cause: 'the colour profile cannot be used',
    cure: 'Choose another colour space in the specification',
  },
  'delivery-too-large': {
    cause: 'it cannot be made as small as was asked for',
    cure: 'Allow more bytes, or fewer pixels',
  },
  'delivery-not-as-written': {
    cause: 'the file did not read back as it was written, and was taken away again',
    cure: `${checkDisk}; then deliver again`,
  },
  'output-is-original': {
    cause: 'the file would take the original’s place',
    cure: 'Deliver into another folder',
  },
  'output-exists': { cause: 'a file of its name is there already', cure: 'Deliver again, into a new folder' },
  'metadata-unreadable': {
    cause: 'words or settings could not be written into the file',
    cure: 'Deliver it by a specification with fewer fields in metadata, those that are taken over from the original (privateFields) first',
  },
  'metadata-timed-out': {
    cause: 'writing words or settings into the file took too long',
    cure: 'Deliver again when the station has less to do',
  },
  'metadata-closed': { cause: 'the station was ending', cure: 'Deliver again' },
  'worker-crashed': { cause: 'the work on it broke down', cure: '' },
  'worker-too-slow': { cause: 'the work on it took too long', cure: '' },
  'worker-called-off': { cause: 'the work on it was called off', cure: 'Deliver again' },
  'worker-pool-closed': { cause: 'the station was ending', cure: 'Deliver again' },
  ENOENT: { cause: 'its file is not on the disk any more', cure: '' },
  EIO: { cause: 'its file cannot be read', cure: 'Check the disk' },
  EACCES: { cause: 'its file cannot be read', cure: 'Check the disk' },
  ENOSPC: { cause: 'the disk is full', cure: '' },
};

/** Codes that have words here. */
export function codesWithCause(): readonly string[] {
  return Object.keys(whys);
}

/** What went wrong; a code that has no words is named beside them, for whoever is asked about it. */
export function causePhrase(code: string): string {
  const known = whys[code];
  if (known !== undefined) return known.cause;
  return code === '' || code === '?' || code === 'unknown'
    ? 'for a reason that was not noted'
    : `for a reason that has no words here, noted as ${code}`;
}

/** Two sentences of which the second may be absent, without the last full stop. */
export function causeAndCure(code: string): string {
  return [causePhrase(code), whys[code]?.cure ?? ''].filter((part) => part !== '').join('. ');
}

/** A cure for a file of a delivery, a whole sentence: one that has none of its own is tried once more, and then left. */
export function cureOfFile(code: string): string {
  const cure = whys[code]?.cure ?? '';
  return `${cure === '' ? 'Deliver this frame once more; if that fails too, choose another frame' : cure}.`;
}
