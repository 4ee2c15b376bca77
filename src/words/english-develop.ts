import { numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What had to be assumed or left out while a picture was developed. Codes `develop.*` come from develop and workers. */
export const developSentences: SentenceTable = {
  'develop.no-camera-matrix': () =>
    'The colours of this camera are not known, so they are shown as they come from the sensor.',
  'develop.no-as-shot-balance': () => 'The file states no white balance, so daylight was assumed.',
  'develop.target-not-applied': () =>
    'The target has no part in this: only raws that are rendered are balanced on it.',
  'develop.look-not-applied': () =>
    'The camera finished this picture itself, so the look was not applied to it.',
  'develop.not-enlarged': (args) =>
    `Nothing is enlarged: the long edge is ${numberArg(args, 'longPx')} pixels, all there is, and not ${numberArg(args, 'askedPx')}.`,
  'develop.small-result': (args) =>
    `The picture is ${numberArg(args, 'widthPx')} x ${numberArg(args, 'heightPx')} pixels. If that was not meant, look at the ratio and the size of the look’s crop.`,
  'develop.only-geometry': () =>
    'The camera finished this picture itself: of the look, only flip, turn and crop were applied to it.',
  'develop.linear-without-look': () =>
    'Linear light is written as the camera saw it, so the look was not applied to it.',
  'develop.noise-unknown': () =>
    'The noise of this picture cannot be told, so nothing was smoothed and acutance spared no noise.',
  'develop.lens-not-applied': () =>
    'What is known of the lens is for raws that are rendered with a look; this picture was left as it is.',
  'develop.opcodes-left-out': (args) =>
    `The file asks for steps that are not carried out here (DNG opcodes ${textArg(args, 'opcodes')}), so the picture may differ from what its maker meant.`,
};
