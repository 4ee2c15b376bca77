import { type SentenceTable, textArg } from './phrases.ts';

/** What the system refused, by its own codes (POSIX errno), for whoever named the file. Codes `system.*` come from cli. */
export const systemSentences: SentenceTable = {
  'system.ENOENT': (args) => `There is no ${textArg(args, 'path')}.`,
  'system.EACCES': (args) => `This user may not use ${textArg(args, 'path')}.`,
  'system.EPERM': (args) => `This user may not use ${textArg(args, 'path')}.`,
  'system.EISDIR': (args) => `${textArg(args, 'path')} is a folder, not a file.`,
  'system.ENOTDIR': (args) => `${textArg(args, 'path')} leads through something that is no folder.`,
  'system.EEXIST': (args) => `${textArg(args, 'path')} is there already and is no folder.`,
  'system.ENOSPC': () => 'The disk is full.',
  'system.EROFS': (args) => `${textArg(args, 'path')} lies where nothing can be written.`,
  'system.EIO': (args) => `The disk failed at ${textArg(args, 'path')}. Check the disk and its cable.`,
};

/** What to do about it. Codes `cure.*` with the code of the failure behind, said where it brings no cure of its own. */
export const systemCures: SentenceTable = {
  'cure.ENOENT': () => 'Look at the name and at the folder it is in.',
  'cure.EACCES': () => 'Ask whoever owns it, or name another.',
  'cure.EPERM': () => 'Ask whoever owns it, or name another.',
  'cure.EISDIR': () => 'Name a file in it.',
  'cure.ENOTDIR': () => 'Look at each folder of the name.',
  'cure.ENOSPC': () => 'Make room, or name a place on another disk.',
  'cure.EROFS': () => 'Name a place on another disk.',
  'cure.not-a-picture': () => 'Give a camera’s raw file, or a JPEG, TIFF, PNG or HEIF picture.',
  'cure.raw-cannot-decode': () =>
    'Choose another compression for raw files on the camera, or have it write a JPEG too.',
  'cure.raw-cut': () => 'Send it from the camera again, or copy it from the card.',
  'cure.raw-too-small': () => 'Give the whole picture, not a cut of it.',
  'cure.raw-too-large': () => 'Give a smaller raw, or have the camera write a JPEG too.',
  'cure.raw-unsupported-mosaic': () => 'Have the camera write a JPEG too.',
  'cure.bad-look': () => 'Mend it; docs/looks.md has every number, and setside look check FILE says more.',
  'cure.file-empty': () => 'Take it from the card again, or send it again from the camera.',
  'cure.picture-cannot-decode': () =>
    'Take it from the card again; if it stays so, the picture inside the file is lost or of a kind that is not known here.',
};
