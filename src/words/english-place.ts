import { type Args, figurePhrase, numberArg, type SentenceTable } from './phrases.ts';

/** What is said of the place. Codes `place.*` come from judge. */
export const placeSentences: SentenceTable = {
  'place.good': (args) =>
    `In place: ${pixels(numberArg(args, 'px'))}${inMm(args)} off the reference, ${turnPhrase(args)}, ${sizePhrase(args)}.`,
  'place.moved': (args) => off(`it lies ${movePhrase(args)}`, shiftAndLimit(args)),
  'place.part-moved': (args) =>
    off(`a part of the picture lies ${movePhrase(args)} while the rest holds still`, shiftAndLimit(args)),
  'place.part-lost': (args) =>
    `A part of the reference is not found again, about ${Math.round(numberArg(args, 'acrossPercent'))} % from the left and ${Math.round(numberArg(args, 'downPercent'))} % from the top: it is covered, changed or gone.`,
  'place.part-changed': (args) =>
    `The light of a part is not the reference’s, about ${Math.round(numberArg(args, 'acrossPercent'))} % from the left and ${Math.round(numberArg(args, 'downPercent'))} % from the top: something there is gone, moved or new.`,
  'place.turned': (args) => {
    const [degrees, limit] = [numberArg(args, 'degrees'), numberArg(args, 'limitDegrees')];
    return off(`it is ${turnPhrase(args)} against the reference`, [degrees, limit, degreesPhrase]);
  },
  'place.resized': (args) => {
    const [percent, limit] = [numberArg(args, 'percent'), numberArg(args, 'limitPercent')];
    return off(`it is ${sizePhrase(args)} than in the reference`, [percent, limit, inPercent]);
  },
  'place.no-reference': () =>
    'The place cannot be told: the shot has no reference frame and no layout picture yet.',
  'place.none-given': () => 'The place cannot be told: no reference was given (--reference).',
  'place.is-reference': () => 'This is the frame that the others of its shot are held against.',
  'place.not-yet': () => 'The place is being measured against the new reference.',
  'place.reference-unread': () =>
    'The place cannot be told: the reference cannot be read, or its file is not here yet.',
  'place.subject': (args) =>
    `The subject fills ${figurePhrase(numberArg(args, 'fillPercent'), '%')} of the frame, with ${marginPhrase(args)} free.`,
  'place.too-small': () => 'The place cannot be told: the picture is too small.',
  'place.no-structure': () =>
    'The place cannot be told: in the frame or in its reference nothing stands out that could be held on to.',
  'place.one-direction': () =>
    'The place cannot be told: there are only stripes one way, and along them nothing can be measured.',
  'place.other-orientation': () =>
    'The place cannot be told: of frame and reference one is upright and the other lies.',
  'place.other-picture': () =>
    'The place cannot be told: nothing in the frame is found again in the reference.',
  'place.repeating': () =>
    'The place cannot be told: the picture repeats itself, and fits the reference in several places.',
  'place.unsure': (args) =>
    `The place is not sure: the frame has changed much against the reference; it seems ${pixels(numberArg(args, 'px'))} off.`,
  'place.preview': () => 'Only the camera’s preview is here: the place is measured on the whole file.',
  'place.preview-off': () =>
    'Looks out of place even in the camera’s preview; it is measured when the whole file is here.',
};

/** `23 px to the right and 4.2 px lower (1.3 mm)`. What does not show in the larger one is left out. */
export function movePhrase(args: Args): string {
  const [right, down] = [numberArg(args, 'rightPx'), numberArg(args, 'downPx')];
  const most = Math.max(Math.abs(right), Math.abs(down));
  const across = `${pixels(right)} to the ${right < 0 ? 'left' : 'right'}`;
  const along = `${pixels(down)} ${down < 0 ? 'higher' : 'lower'}`;
  const parts = [
    ...(Math.abs(right) >= 0.1 * most ? [across] : []),
    ...(Math.abs(down) >= 0.1 * most ? [along] : []),
  ];
  return `${parts.join(' and ')}${inMm(args)}`;
}

/** ` (1.3 mm)`; nothing where the scale is not known. */
function inMm(args: Args): string {
  const mm = numberArg(args, 'mm');
  return mm > 0 ? ` (${figurePhrase(mm, 'mm')})` : '';
}

/** What was measured, its limit (0 where none is told), and how both are said. */
type AndLimit = readonly [value: number, limit: number, phrase: (value: number) => string];

/**
 * What is off, with its limit. A measurement that lies at its limit, within what can be read of the figure, is not called
 * out of place.
 */
function off(what: string, [value, limit, phrase]: AndLimit): string {
  if (limit <= 0) return `Not in place: ${what}.`;
  const isAtLimit = Math.abs(value) <= limit || phrase(Math.abs(value)) === phrase(limit);
  return isAtLimit
    ? `Perhaps not in place: ${what}, at the limit of ${phrase(limit)}.`
    : `Not in place: ${what}, up to ${phrase(limit)} is in place.`;
}

function shiftAndLimit(args: Args): AndLimit {
  const limitMm = numberArg(args, 'limitMm');
  return limitMm > 0
    ? [numberArg(args, 'mm'), limitMm, (mm) => figurePhrase(mm, 'mm')]
    : [Math.hypot(numberArg(args, 'rightPx'), numberArg(args, 'downPx')), numberArg(args, 'limitPx'), pixels];
}

function inPercent(percent: number): string {
  return figurePhrase(percent, '%');
}

function pixels(px: number): string {
  return figurePhrase(Math.abs(px), 'px');
}

export function turnPhrase(args: Args): string {
  const degrees = numberArg(args, 'degrees');
  if (Math.abs(degrees) < 0.005) return 'not turned';
  return `turned by ${degreesPhrase(degrees)} ${degrees < 0 ? 'anticlockwise' : 'clockwise'}`;
}

function degreesPhrase(degrees: number): string {
  return figurePhrase(Math.abs(degrees), '°');
}

export function sizePhrase(args: Args): string {
  const percent = numberArg(args, 'percent');
  if (Math.abs(percent) < 0.005) return 'of the same size';
  return `${figurePhrase(Math.abs(percent), '%')} ${percent < 0 ? 'smaller' : 'larger'}`;
}

function marginPhrase(args: Args): string {
  const sides = ['left', 'top', 'right', 'bottom'] as const;
  const names = { left: 'on the left', top: 'above', right: 'on the right', bottom: 'below' } as const;
  const phrases = sides.map((side) => `${figurePhrase(numberArg(args, side), '%')} ${names[side]}`);
  return `${phrases.slice(0, 3).join(', ')} and ${phrases[3] ?? ''}`;
}
