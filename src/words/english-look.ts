import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is to be said of a look and of the documents it travels in. Codes `look.*` come from the room look. */
export const lookSentences: SentenceTable = {
  'look.too-long': (args) =>
    `This is longer than a look can be: ${numberArg(args, 'charactersMax')} characters at most.`,
  'look.no-json': () => 'This is not a JSON document.',
  'look.no-look': () => 'This is not a look: a look is a JSON object with a version.',
  'look.newer-version': (args) =>
    `This look is of version ${numberArg(args, 'version')}; this Setside reads up to version ${numberArg(args, 'currentVersion')}. Use a newer one.`,
  'look.bad-old-version': (args) =>
    `This look says version ${numberArg(args, 'version')} but does not have its members.`,
  'look.too-small': (args) => `${textArg(args, 'member')} is below its least, ${numberArg(args, 'min')}.`,
  'look.too-large': (args) => `${textArg(args, 'member')} is above its most, ${numberArg(args, 'max')}.`,
  'look.unknown-member': (args) =>
    textArg(args, 'member') === 'look'
      ? `A look has no ${textArg(args, 'names')}.`
      : `${textArg(args, 'member')} has no ${textArg(args, 'names')}.`,
  'look.bad-member': (args) => `${textArg(args, 'member')}: ${textArg(args, 'problem').replace(/\.$/, '')}.`,
  'look.no-as-shot-white': () =>
    'The light that the camera balanced for is not known, so the temperature counts from D65.',
  'look.no-target': () => 'No target was photographed for this frame, so it is balanced as shot.',
};
