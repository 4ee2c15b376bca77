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
