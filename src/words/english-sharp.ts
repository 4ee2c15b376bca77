import { type Args, figurePhrase, numberArg, type SentenceTable, textArg } from './phrases.ts';

/** What is said of sharpness. Codes `sharp.*` come from judge. */
export const sharpSentences: SentenceTable = {
  'sharp.good': (args) => `Sharp: edges ${width(args)} wide where it counts.`,
  'sharp.good-somewhere': (args) => `Sharp: edges ${width(args)} wide where the picture is sharpest.`,
  'sharp.soft': (args) => `Soft: edges ${width(args)} wide${limit(args)}.`,
  'sharp.out-of-focus': (args) => `Out of focus: edges ${width(args)} wide every way${limit(args)}.`,
  'sharp.moved': (args) =>
    `Moved while the shutter was open: ${figurePhrase(numberArg(args, 'lengthPx'), 'px')} ${directionPhrase(numberArg(args, 'degrees'))}, edges ${width(args)} wide${limit(args)}.`,
  'sharp.movement-elsewhere': (args) =>
    `Movement cannot be ruled out: edges elsewhere look moved by ${figurePhrase(numberArg(args, 'lengthPx'), 'px')} ${directionPhrase(numberArg(args, 'degrees'))}, and here none lies across that way.`,
  'sharp.elsewhere': (args) =>
    `Sharp, but not where it should be: the sharpest edges lie ${wherePhrase(textArg(args, 'where'))}, ${width(args)} wide.`,
  'sharp.sharpest-lie': (args) =>
    `The sharpest edges lie ${wherePhrase(textArg(args, 'where'))}, ${width(args)} wide.`,
  'sharp.less-soft-elsewhere': (args) =>
    `Soft everywhere, and softer where it should be sharp: the least soft edges lie ${wherePhrase(textArg(args, 'where'))}, ${width(args)} wide.`,
  'sharp.softer-than-reference': (args) =>
    `Softer than the reference: edges ${width(args)} wide, there ${figurePhrase(numberArg(args, 'referencePx'), 'px')}.`,
  'sharp.part-softer': (args) =>
    `Soft ${partPhrase(textArg(args, 'where'))}, where the reference is sharp: edges ${width(args)} wide, there ${figurePhrase(numberArg(args, 'referencePx'), 'px')}.`,
  'sharp.part-unreadable': (args) =>
    `Soft ${partPhrase(textArg(args, 'where'))}: no edge can be measured there any more, where the reference is sharp with edges ${figurePhrase(numberArg(args, 'referencePx'), 'px')} wide.`,
  'sharp.reference-as-soft': (args) =>
    `The reference is as soft itself: edges ${figurePhrase(numberArg(args, 'referencePx'), 'px')} wide there.`,
  'sharp.no-edge': () => 'Sharpness cannot be told: there is no edge in the picture that can be measured.',
  'sharp.no-edge-at-spot': () =>
    'Sharpness cannot be told: at the focus spot there is no edge that can be measured.',
  'sharp.preview-soft': () =>
    'Looks soft even in the camera’s preview; it is measured when the whole file is here.',
  'sharp.preview-sharp': () => 'Only the camera’s preview is here: sharpness is measured on the whole file.',
};

function width(args: Args): string {
  return figurePhrase(numberArg(args, 'px'), 'px');
}

function limit(args: Args): string {
  const px = numberArg(args, 'limitPx');
  const most = figurePhrase(px, 'px');
  if (px <= 0) return '';
  return most === width(args) ? `, at the limit of what is sharp` : `, up to ${most} is sharp`;
}

/** Which way a movement went, as one sees it; `degrees` clockwise from level, 0 … 180. */
export function directionPhrase(degrees: number): string {
  if (degrees < 22.5 || degrees >= 157.5) return 'sideways';
  if (degrees < 67.5) return 'slanting, down to the right';
  return degrees < 112.5 ? 'up and down' : 'slanting, up to the right';
}

/** Of a part of the picture. */
function partPhrase(where: string): string {
  return `at the ${{ above: 'top', below: 'bottom' }[where] ?? where} of the picture`;
}

function wherePhrase(where: string): string {
  return where === 'left' || where === 'right' ? `to the ${where} of it` : `${where} it`;
}
