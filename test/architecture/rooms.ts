/**
 * The plan of the house: each room with its floor. A room may import rooms on lower floors only; rooms on one floor
 * do not know each other. A new arrow is the gravest change there is: put it in a commit of its own.
 */
export const floors: readonly (readonly string[])[] = [
  ['base'],
  ['colour'],
  ['image'],
  ['facts'],
  ['look', 'formats', 'words', 'slate', 'bag'],
  ['develop', 'judge', 'job', 'metadata', 'contract'],
  ['receive', 'keep', 'register', 'workers', 'authority', 'paper', 'deliver', 'bagging', 'line', 'send'],
  ['serve', 'page', 'stand-in'],
  ['station'],
  ['cli'],
];

/** What the page may import, whatever the floors say: pure rooms only. */
export const pageMayImport: readonly string[] = [
  'base',
  'colour',
  'image',
  'look',
  'facts',
  'words',
  'slate',
  'contract',
  'deliver',
];

/** Rooms that know no file, socket, clock, randomness or log. */
export const pureRooms: readonly string[] = [
  'base',
  'colour',
  'image',
  'facts',
  'look',
  'formats',
  'words',
  'slate',
  'bag',
  'develop',
  'judge',
  'job',
  'metadata',
  'contract',
  'line',
  'deliver',
];

/** Packages a pure room may use, by name. */
export const pureRoomPackages: Readonly<Record<string, readonly string[]>> = {
  contract: ['zod'],
  deliver: ['zod'],
  look: ['zod', 'saxes'],
  slate: ['qrcode-generator'],
};
