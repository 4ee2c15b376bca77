import { type SentenceTable, textArg } from './phrases.ts';

/** What the station says of itself. Codes `station.*`. */
export const stationSentences: SentenceTable = {
  'station.cannot-keep-awake': () =>
    'This computer cannot be kept awake from here: switch its sleep off while you shoot.',
  'station.certificate-renewed': () =>
    'The certificate for FTPS was renewed; cameras that trust the root notice nothing.',
  'station.no-certificate': (args) =>
    `FTPS is shut, because the keys in ${textArg(args, 'place')} cannot be read. Put them back from a backup, or take them away: a new root is made, and each camera must import that.`,
  'station.link-made': (args) => `A link for ${textArg(args, 'name')} (${textArg(args, 'scope')}) was made.`,
  'station.link-ended': (args) => `The link for ${textArg(args, 'name')} has ended.`,
  'station.link-entered': (args) =>
    `A device at ${textArg(args, 'address')} came in by the link for ${textArg(args, 'name')}.`,
  'station.link-in-clear': (args) =>
    `A device at ${textArg(args, 'address')} tried an operator’s link without encryption: the link has ended.`,
  'station.link-wrong': (args) => `A device at ${textArg(args, 'address')} tried a link that opens nothing.`,
  'station.links-shut': (args) =>
    `No device can come in: port ${textArg(args, 'port')} cannot be opened (${textArg(args, 'why')}). Close the program that uses it, or choose another with --links.`,
  'station.sidecar-set-aside': (args) =>
    `${textArg(args, 'path')} was changed by another program: it is kept as ${textArg(args, 'aside')}, and ours is written anew.`,
  'station.trouble': (args) =>
    `Something went wrong: ${textArg(args, 'message')} (${textArg(args, 'code')}).`,
};
