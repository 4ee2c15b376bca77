import { numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What is said of archive packages. Codes `bag.*` come from bag and bagging. */
export const bagSentences: SentenceTable = {
  'bag.failed': (args) =>
    `It did not come to its end: ${textArg(args, 'why')}. ${textArg(args, 'cure')}`.trim(),
  'bag.away': (args) =>
    `The station ended in the middle, and ${textArg(args, 'folder')} is not there now or holds nothing of it. Put the disk back and begin again.`,
  'bag.delivery-under-way': (args) =>
    `The delivery ${textArg(args, 'title')} is still being made, and not in the package: half of it has no list of contents. Pack the job again, into another folder, once it is done.`,
  'bag.delivery-waits': (args) =>
    `The delivery ${textArg(args, 'title')} waits in the middle, and is not in the package. Let it go on or end it on the Hand-over page, then pack the job again, into another folder.`,
  'bag.delivery-ended-early': (args) =>
    `The delivery ${textArg(args, 'title')} was ended before it was done, and is not in the package. Deliver again if it is wanted; what was made of it stays in the home.`,
  'bag.no-declaration': () => 'bagit.txt is not there: this folder is no bag, or not the whole of one.',
  'bag.declaration-mark': () => 'bagit.txt begins with a byte-order mark, which the format forbids.',
  'bag.declaration-line': (args) => `bagit.txt holds a line that says nothing: ${textArg(args, 'line')}.`,
  'bag.declaration-lacks': (args) =>
    `bagit.txt does not say ${textArg(args, 'field')}, or not as the format asks for.`,
  'bag.version': (args) =>
    `The bag is of version ${textArg(args, 'version')}; versions up to 1.0 are known here. Check it with newer software.`,
  'bag.no-data': () => 'The folder data is not there: the bag has lost its payload.',
  'bag.no-manifest': () => 'There is no manifest of the payload, so nothing in it can be proved.',
  'bag.not-a-file': (args) =>
    `${textArg(args, 'path')} is a link or no ordinary file. It was not followed: what it points at is not in the bag.`,
  'bag.not-text': (args) =>
    `${textArg(args, 'file')} is too large to be what its name says, or not text in ${textArg(args, 'encoding')}.`,
  'bag.algorithm': (args) =>
    `${textArg(args, 'manifest')} holds checksums of a kind that is not known here (${textArg(args, 'algorithm')}), so they prove nothing.`,
  'bag.line': (args) => `${textArg(args, 'file')}, line ${numberArg(args, 'line')}: cannot be read.`,
  'bag.path': (args) =>
    `${textArg(args, 'file')} names a path that ${pathFaults[textArg(args, 'why')] ?? 'may lead out of the bag'}: ${textArg(args, 'path')}. It was not looked at.`,
  'bag.not-payload': (args) =>
    `${textArg(args, 'file')} lists ${textArg(args, 'path')}, which is not below data.`,
  'bag.not-tag': (args) =>
    `${textArg(args, 'file')} lists ${textArg(args, 'path')}, which belongs to the payload.`,
  'bag.path-untidy': (args) =>
    `${textArg(args, 'file')} writes a path in a roundabout way: ${textArg(args, 'path')}.`,
  'bag.path-composed': (args) =>
    `${textArg(args, 'path')} is named with the same letters put together otherwise; some systems do that.`,
  'bag.listed-otherwise': (args) =>
    `${textArg(args, 'file')} lists ${textArg(args, 'path')} twice, with different checksums.`,
  'bag.listed-twice': (args) => `${textArg(args, 'file')} lists ${textArg(args, 'path')} twice.`,
  'bag.capitals': (args) =>
    `${textArg(args, 'path')} and ${textArg(args, 'other')} differ in capitals only: some disks can hold but one of them.`,
  'bag.missing': (args) => `Missing: ${textArg(args, 'path')}, listed in ${textArg(args, 'file')}.`,
  'bag.unlisted': (args) =>
    `Not listed${args.file === undefined ? '' : ` in ${textArg(args, 'file')}`}: ${textArg(args, 'path')}.`,
  'bag.oxum': (args) =>
    `bag-info.txt speaks of ${numberArg(args, 'expectedFiles')} files with ${numberArg(args, 'expectedBytes')} bytes; there are ${numberArg(args, 'files')} with ${numberArg(args, 'bytes')} (${sizePhrase(numberArg(args, 'bytes'))}).`,
  'bag.oxum-twice': () => 'bag-info.txt says Payload-Oxum more than once.',
  'bag.oxum-unread': (args) => `bag-info.txt says a Payload-Oxum that is none: ${textArg(args, 'value')}.`,
  'bag.not-fetched': (args) =>
    `Missing: ${textArg(args, 'path')}, still to be fetched from ${textArg(args, 'address')}. Nothing is fetched here.`,
  'bag.fetched': (args) => `${textArg(args, 'path')} is in fetch.txt too, and was fetched already.`,
  'bag.unreadable': (args) => `Cannot be read: ${textArg(args, 'path')} (${textArg(args, 'why')}).`,
  'bag.altered': (args) =>
    `Altered: the bytes of ${textArg(args, 'path')} are not those listed in ${textArg(args, 'file')}.`,
};

const pathFaults: Readonly<Record<string, string>> = {
  absolute: 'begins at the top of the disk',
  home: 'begins at somebody’s home',
  climbs: 'climbs out of the bag',
  drive: 'names a drive',
  variable: 'begins with a variable',
  empty: 'names nothing',
  control: 'holds a zero byte',
};
