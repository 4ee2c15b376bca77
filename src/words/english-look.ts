import { partsPhrase } from './look-words.ts';
import { type Args, numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is to be said of a look and of the documents it travels in. Codes `look.*` come from the room look. */
export const lookSentences: SentenceTable = {
  'look.too-long': (args) =>
    `This is longer than a look can be: ${numberArg(args, 'charactersMax')} characters at most.`,
  'look.no-json': () => 'This is not a JSON document.',
  'look.no-look': () => 'This is not a look: a look is a JSON object with a version.',
  'look.newer-version': (args) =>
    `This look is of version ${numberArg(args, 'version')}; this Setside reads up to version ${numberArg(args, 'currentVersion')}. Use a newer one.`,
  'look.bad-old-version': (args) =>
    `This look says version ${numberArg(args, 'version')}; missing, wrong or unknown in that version: ${textArg(args, 'members')}.`,
  'look.too-small': (args) =>
    args.value === undefined
      ? `${textArg(args, 'member')} has too little in it: ${numberArg(args, 'min')} at least.`
      : outOfRange(args),
  'look.too-large': (args) =>
    args.value === undefined
      ? `${textArg(args, 'member')} has too much in it: ${numberArg(args, 'max')} at most.`
      : outOfRange(args),
  'look.unknown-member': (args) => {
    const whose = textArg(args, 'member') === 'look' ? 'A look' : textArg(args, 'member');
    const likely = args.likely === undefined ? '' : ` Is ${textArg(args, 'likely')} meant?`;
    return `${whose} has no ${textArg(args, 'names')}.${likely}`;
  },
  'look.wrong-kind': (args) =>
    `${textArg(args, 'member')} should be ${kindPhrase(textArg(args, 'expected'))}, and is ${kindPhrase(textArg(args, 'found'))}.`,
  'look.unknown-choice': (args) => {
    const choices = textArg(args, 'choices');
    return `${textArg(args, 'member')} says something that is not known here${choices === '' ? '' : `; it can be ${choices}`}.`;
  },
  'look.curve-below-white': () =>
    'The curve does not get as far as its white: take a greater gamma, a white further above the pivot, or a lighter pivot.',
  'look.line-too-short': (args) =>
    `${textArg(args, 'member')} is too short to be levelled by: draw a line over a twentieth of the picture at least.`,
  'look.bad-member': (args) => `${textArg(args, 'member')} is not as a look has it.`,
  'look.gamma-not-held': (args) =>
    `With this toe, shoulder and white the curve’s slope at the pivot is ${numberArg(args, 'slope')} at the least; the gamma says ${numberArg(args, 'gamma')}.`,
  'look.no-as-shot-white': () =>
    'The light that the camera balanced for is not known, so the temperature counts from D65.',
  'look.lines-are-one': () =>
    'The two parallels of the look are one and the same line: the picture is turned by it, but not levelled. Draw one of them elsewhere.',
  'look.lines-too-steep': () =>
    'The two lines meet in the picture or close to it, so they were left as they are: mark two that run more alike.',
  'look.no-target': () => 'No target was photographed for this frame, so it is balanced as shot.',
  'look.unknown-document': (args) =>
    `This is neither a look, a CLF document nor an ASC CDL: it begins with ${textArg(args, 'found')}.`,
  'look.xml-too-long': (args) =>
    `This document is longer than is read: ${numberArg(args, 'textCharactersMax')} characters at most.`,
  'look.xml-doctype': () =>
    'This document has a document type (DOCTYPE), which is not read: it could name things that are not in it.',
  'look.xml-broken': (args) =>
    `This is no whole XML document; line ${numberArg(args, 'line')}: ${textArg(args, 'problem')}.`,
  'look.xml-too-deep': (args) =>
    `The elements of this document are nested deeper than is read: ${numberArg(args, 'depthMax')} at most.`,
  'look.xml-too-many': (args) =>
    args.attributesMax === undefined
      ? `This document has more elements than are read: ${numberArg(args, 'elementsMax')} at most.`
      : `An element of this document has more attributes than are read: ${numberArg(args, 'attributesMax')} at most.`,
  'look.clf-no-list': (args) => `A CLF document begins with ProcessList, not with ${textArg(args, 'found')}.`,
  'look.clf-version': (args) =>
    `This CLF document asks for version ${textArg(args, 'version')}; versions up to 3 are read.`,
  'look.clf-no-nodes': () => 'This CLF document has no step in it.',
  'look.clf-too-many-nodes': (args) =>
    `This CLF document has more steps than are read: ${numberArg(args, 'nodesMax')} at most.`,
  'look.clf-unknown-node': (args) =>
    `This CLF document has a step that the format does not know: ${textArg(args, 'node')}.`,
  'look.clf-missing': (args) => `${textArg(args, 'node')} lacks ${textArg(args, 'what')}.`,
  'look.clf-value': (args) =>
    `${textArg(args, 'what')} of ${textArg(args, 'node')} cannot be ${textArg(args, 'value')}.`,
  'look.clf-depths': (args) =>
    `${textArg(args, 'node')} takes ${textArg(args, 'into')} where the step before gives ${textArg(args, 'before')}.`,
  'look.clf-numbers': (args) => `The array of ${textArg(args, 'node')} holds something that is no number.`,
  'look.clf-count': (args) =>
    `${textArg(args, 'node')} should hold ${numberArg(args, 'expected')} numbers and holds ${numberArg(args, 'found')}.`,
  'look.clf-too-large': (args) =>
    `The table of ${textArg(args, 'node')} is larger than is read: ${numberArg(args, 'size')}, at most ${numberArg(args, 'sizeMax')}.`,
  'look.cdl-no-list': (args) =>
    `An ASC CDL document begins with ColorCorrection, ColorCorrectionCollection or ColorDecisionList, not with ${textArg(args, 'found')}.`,
  'look.cdl-none': () => 'This ASC CDL document has no correction in it.',
  'look.cdl-empty': (args) =>
    `${capital(correctionPhrase(args))} has neither slope, offset and power nor saturation.`,
  'look.cdl-value': (args) =>
    `${capital(textArg(args, 'what'))} of ${correctionPhrase(args)} ${
      args.count === undefined
        ? `lies outside ${numberArg(args, 'min')} … ${numberArg(args, 'max')}`
        : numberArg(args, 'count') === 1
          ? 'should be one number'
          : `should be ${numberArg(args, 'count')} numbers`
    }.`,
  'look.several-corrections': (args) =>
    `This document has ${numberArg(args, 'corrections')} corrections; say which one with --id: ${textArg(args, 'ids')}${moreOf(args)}.`,
  'look.several-numbered': (args) =>
    numberArg(args, 'corrections') === numberArg(args, 'total')
      ? `This document has ${numberArg(args, 'total')} corrections; say which one with --number: ${textArg(args, 'ids')}${moreOf(args)}.`
      : `${numberArg(args, 'corrections')} of the ${numberArg(args, 'total')} corrections of this document have that id; say which one with --number: ${textArg(args, 'ids')}${moreOf(args)}.`,
  'look.other-correction': (args) =>
    `Correction ${numberArg(args, 'number')} here is not called ${textArg(args, 'id')}.`,
  'look.no-correction-number': (args) =>
    `There is no correction ${numberArg(args, 'number')} here: this document has ${numberArg(args, 'corrections')}.`,
  'look.no-such-correction': (args) => `No correction here is called ${textArg(args, 'id')}.`,
  'look.clf-not-only-cdl': () =>
    'This CLF document has steps besides ASC CDL, so it cannot become a correction or a look.',
  'look.clf-not-kept': (args) =>
    `Left out where it is written anew: ${textArg(args, 'names')
      .split(' ')
      .map((name) => (name === 'bitDepth' ? 'bit depths (all numbers are floats now)' : name))
      .join(', ')}.`,
  'look.left-out': (args) =>
    `A correction cannot hold all of this look; left out: ${partsPhrase(textArg(args, 'parts'))}.`,
  'look.table-left-out': (args) =>
    `A document cannot hold all of this look; left out: ${partsPhrase(textArg(args, 'parts'))}.`,
  'look.nothing-for-a-table': (args) =>
    `Nothing of this look works point by point, so no document can hold any of it: ${partsPhrase(textArg(args, 'parts'))}. Give the look itself.`,
  'look.clf-not-cut': () =>
    'This look has no curve, and a rendering ends at white; the document hands on what is lighter than white.',
  'look.table-no-target': () =>
    'A document knows no target, so its balance is as shot; a frame whose target was read has the target’s.',
  'look.table-off': (args) =>
    `The table is further from the look than it should be: mean ${numberArg(args, 'mean')}, 99.9 % of colours under ${numberArg(args, 'p999')} (CIEDE2000).${
      args.finerNodes === undefined
        ? ''
        : ` One of ${numberArg(args, 'finerNodes')} nodes is nearer, in a larger file: setside look compile --nodes ${numberArg(args, 'finerNodes')}.`
    }`,
  'look.lifted': (args) =>
    `Read from version ${numberArg(args, 'version')}; written anew it is of version ${numberArg(args, 'currentVersion')}.`,
};

function outOfRange(args: Args): string {
  const value = numberArg(args, 'value');
  return `${textArg(args, 'member')} is ${value}: it goes from ${numberArg(args, 'min')} to ${numberArg(args, 'max')}.`;
}

/** A kind of value in a JSON document. */
function kindPhrase(kind: string): string {
  switch (kind) {
    case 'number':
      return 'a number';
    case 'endless':
      return 'a number beyond all bounds';
    case 'string':
      return 'a text';
    case 'boolean':
      return 'true or false';
    case 'array':
    case 'tuple':
    case 'list':
      return 'a list';
    case 'object':
      return 'an object';
    default:
      return 'missing';
  }
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

function correctionPhrase(args: Args): string {
  const id = textArg(args, 'id');
  const number = numberArg(args, 'number');
  if (number > 0) return `correction ${number}${id === '' ? '' : ` (${id})`}`;
  return id === '' ? 'the correction' : `correction ${id}`;
}

/** " and 3 more", where a list was cut. */
function moreOf(args: Args): string {
  const more = numberArg(args, 'more');
  return more === 0 ? '' : ` and ${more} more`;
}
