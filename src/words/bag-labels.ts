import { sizePhrase } from './phrases.ts';

const files = (count: number): string => (count === 1 ? '1 file' : `${count} files`);

/** Names of things about archive packages, on the Hand-over page. */
export const bagLabels = {
  title: 'Archive package',
  about:
    'A folder that says of itself what has to be in it, and can be checked in ten years (BagIt, RFC 8493).',
  elsewhere: 'Packages are made and checked on the station’s own computer only.',
  noPlace:
    'No disk for it is in. Put in a removable disk, or add a folder of the archive as a destination; then look again.',
  make: 'Make a package',
  job: 'Of the job',
  place: 'On',
  why: { removable: 'removable disk', destination: 'destination' },
  name: 'Folder',
  nameHelp: 'a new one there, or one that was broken off',
  becomes: (folder: string): string => `It will lie in ${folder}.`,
  begin: 'Pack it',
  goOn: 'Go on packing it',
  there: 'What lies there',
  states: { whole: 'a package', unfinished: 'not finished' },
  check: 'Check it',
  ofFolder: (folder: string): string => `: ${folder}`,
  other: 'Another folder',
  otherHelp: 'the one that bagit.txt lies in, from the root, on one of these disks',
  look: 'Look again',
  stop: 'Stop',
  beginning: 'What belongs into it is looked through …',
  checkBegins: 'The package is looked through …',
  writing: (done: number, of: number): string => `${sizePhrase(done)} of ${sizePhrase(of)} written`,
  reading: (done: number, of: number): string => `${sizePhrase(done)} of ${sizePhrase(of)} read again`,
  waits:
    'It rests until a minute after the last frame, and while a delivery is made. Then it goes on by itself.',
  valid: 'Complete and unaltered',
  notValid: 'Not complete, or altered',
  stoppedMaking: 'It was stopped. What is written stays; packing it again goes on.',
  stoppedChecking: 'It was stopped. Nothing is known of this package.',
  failed: 'Nothing is proved',
  made: (originals: number, count: number, bytes: number, at: string): string =>
    `${files(count)}, ${sizePhrase(bytes)}, ${originals === 1 ? '1 original' : `${originals} originals`} among them; all read again at ${at}.`,
  checked: (count: number, bytes: number, version: string, at: string): string =>
    `${files(count)}, ${sizePhrase(bytes)}, BagIt ${version}; every checksum read at ${at}.`,
  checkedBad: (count: number, bytes: number, at: string): string =>
    `${files(count)}, ${sizePhrase(bytes)}, as it was at ${at}.`,
  unfinished: (count: number): string =>
    count === 1
      ? '1 file of the job is on the way or broken off, and not in it. Keep the card.'
      : `${count} files of the job are on the way or broken off, and not in it. Keep the card.`,
  oxum: 'Payload-Oxum',
  keep: 'Keep the whole folder together, and write this figure down elsewhere: bytes and files of what is in it. Check the package again after the disk was taken off and put back.',
  mend: 'Make it again from the job, or take it from another copy; nothing was changed here.',
  findings: 'What was found',
  more: (count: number): string => `and ${count} more; setside bag check --json names them all`,
  terminal: 'In a terminal on the station’s computer',
  makeLine: (job: string): string => `setside bag make ${job} FOLDER`,
  checkLine: 'setside bag check FOLDER',
} as const;
