import { type Args, numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of colour ("True"). Codes `colour.*` come from judge. */
export const colourSentences: SentenceTable = {
  'colour.good': (args) =>
    `Colour is true: the target is off by ${error(args, 'mean')} in the mean, ${error(args, 'max')} at worst${patchPhrase(args)}.`,
  'colour.off': (args) =>
    `Colour is off by ${error(args, 'mean')} in the mean${limitPhrase(args)}${worstPhrase(args)}.`,
  'colour.patch-off': (args) =>
    `One colour of the target is off by ${error(args, 'max')}${patchPhrase(args)}.`,
  'colour.greys-off': (args) => {
    const duv = numberArg(args, 'duv');
    return `Greys lean towards ${duv < 0 ? 'magenta' : 'green'}, ${Math.abs(duv).toFixed(4)} Duv, and ${kelvinPhrase(numberArg(args, 'kelvin'))}.`;
  },
  'colour.target-lost-light': (args) => {
    const patches = numberArg(args, 'patches');
    return `The target is too bright: ${patches === 1 ? 'a patch has' : `${patches} patches have`} lost light. Photograph it again, darker.`;
  },
  'colour.target-seen-badly': (args) =>
    `The target is hard to see (${Math.round(numberArg(args, 'percent'))} % sure): light it evenly, turn it to the camera, keep gloss off it.`,
  'colour.edition-assumed': () =>
    'Which edition the target is cannot be told from its colours; the one made from November 2014 on is assumed.',
  'colour.by-counted-target': (args) =>
    `Told as it is rendered, by the target that counts${ownBalancePhrase(args)}.`,
  'colour.by-own-target': (args) =>
    `Told as it is rendered, by this target itself: each patch by a matrix made without it${ownBalancePhrase(args)}.`,
  'colour.not-yet': () => 'A target is being looked for in the frame.',
  'colour.no-target-counts': () =>
    'Colour cannot be told: there is no target in the picture, and none that counts for this light. Photograph one and let it count.',
  'colour.none-counts': () =>
    'Colour cannot be told: no target counts for this frame, and none was looked for in it. If there is one in it, mark the frame as a target; else photograph one and let it count.',
  'colour.nothing-stands-still': () =>
    'Colour cannot be told: too much has changed since the frame with the target to compare the two.',
  'colour.target-unread': () => 'The frame whose target counts has not been measured.',
  'colour.target-itself': () => 'The target that counts is no better itself.',
  'colour.set-kept': (args) => `It keeps the colour limits of ${textArg(args, 'set')}.`,
  'colour.set-missed': (args) =>
    `Colour misses ${textArg(args, 'set')}: ${setFigures[textArg(args, 'what')] ?? 'a limit'} ${numberArg(args, 'value').toFixed(1)}, allowed ${numberArg(args, 'limit').toFixed(1)}.`,
  'colour.set-open': (args) => `Not all limits of ${textArg(args, 'set')} can be measured on this target.`,
  'colour.no-target': () => 'Colour cannot be told: there is no target in the picture.',
  'colour.target-too-bright': (args) =>
    `No target can be read: ${Math.round(numberArg(args, 'percent'))} % of the picture has lost its light. Photograph it again, darker.`,
  'colour.target-mirrored': () => 'Colour is not read: the target in the picture is mirrored.',
  'colour.target-cut-off': () => 'Colour is not read: the target reaches beyond the picture.',
  'colour.several-targets': () => 'Colour is not read: there is more than one target in the picture.',
  'colour.target-unsure': () =>
    'Colour cannot be told: something in the picture may be a target, but it is not seen well enough.',
  'colour.no-camera-colours': () =>
    'Colour cannot be told: neither the file nor the decoder knows the colours of this camera. The target in the picture can make a profile for it.',
  'colour.preview': () => 'Only the camera’s preview is here: colour is measured on the whole file.',
  'colour.steady': () => 'Colour has kept since the frame with the target.',
  'colour.drifted': (args) =>
    `Colour has moved since the frame with the target: neutrals by ${numberArg(args, 'deltaUv').toFixed(4)} Δu′v′.`,
};

const setFigures: Readonly<Record<string, string>> = {
  mean: 'mean ΔE00',
  percentile90: '90th percentile of ΔE00',
  max: 'largest ΔE00',
  greys: 'greys off in a*, b* by',
};

function error(args: Args, name: string): string {
  return `${numberArg(args, name).toFixed(1)} ΔE00`;
}

/** What the frame's own balance would be worth. */
function ownBalancePhrase(args: Args): string {
  return numberArg(args, 'mean') > 0
    ? `; by the camera’s own balance and matrix it would be ${error(args, 'mean')} in the mean`
    : '';
}

/** Left out where another finding has said it. */
function worstPhrase(args: Args): string {
  return args.max === undefined ? '' : `, ${error(args, 'max')} at worst${patchPhrase(args)}`;
}

function limitPhrase(args: Args): string {
  const limit = numberArg(args, 'limit');
  return limit > 0 ? `, up to ${limit.toFixed(1)} is true` : '';
}

function kelvinPhrase(kelvin: number): string {
  const size = Math.abs(Math.round(kelvin / 10) * 10);
  return size === 0 ? 'keep their warmth' : `are ${size} K too ${kelvin < 0 ? 'warm' : 'cold'}`;
}

/** The patches as the published tables name them, row by row. */
const patchNames = [
  ...['dark skin', 'light skin', 'blue sky', 'foliage', 'blue flower', 'bluish green'],
  ...['orange', 'purplish blue', 'moderate red', 'purple', 'yellow green', 'orange yellow'],
  ...['blue', 'green', 'red', 'yellow', 'magenta', 'cyan'],
  ...['white', 'light grey', 'middle light grey', 'middle grey', 'dark grey', 'black'],
];

function patchPhrase(args: Args): string {
  const name = patchNames[numberArg(args, 'patch') - 1];
  return name === undefined ? '' : `, at ${name}`;
}
