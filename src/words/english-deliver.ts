import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is to be said of specifications and of what is made by them. Codes `deliver.*` come from the room deliver. */
export const deliverSentences: SentenceTable = {
  'deliver.too-long': (args) =>
    `The document is too long for a specification: at most ${numberArg(args, 'charactersMax')} characters are read.`,
  'deliver.no-json': () => 'This is not a JSON document.',
  'deliver.too-small': (args) => `${textArg(args, 'member')} is below its least, ${numberArg(args, 'min')}.`,
  'deliver.too-large': (args) => `${textArg(args, 'member')} is above its most, ${numberArg(args, 'max')}.`,
  'deliver.unknown-member': (args) =>
    `${textArg(args, 'member')} has nothing by the name of ${textArg(args, 'names')}: docs/delivery.schema.json says what there is.`,
  'deliver.bad-member': (args) =>
    `${textArg(args, 'member')}: ${textArg(args, 'problem').replace(/\.$/, '')}.`,
  'deliver.too-few-pixels': (args) =>
    `Smaller than asked for: the picture has ${numberArg(args, 'percent')} % of the pixels along an edge that it would need, and is not enlarged${sizeOf(args)}.`,
  'deliver.enlarged': (args) =>
    `Enlarged to ${numberArg(args, 'percent')} % along an edge, since the specification allows it${sizeOf(args)}.`,
  'deliver.no-subject': (args) =>
    `What is photographed was not told from its background, so that it does not fill ${numberArg(args, 'percent')} % of the frame: the whole picture is taken.`,
  'deliver.fuller-than-asked': (args) =>
    `The subject fills ${Math.round(numberArg(args, 'percent'))} % of the frame, more than was asked for: there is no picture around it. Let the background be extended, or step back.`,
};

function sizeOf(args: Parameters<typeof numberArg>[0]): string {
  return `: ${numberArg(args, 'widthPx')} x ${numberArg(args, 'heightPx')} pixels`;
}
