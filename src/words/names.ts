import type { ExpectedFiles, Judgement, Mark, Purpose, Question } from '../facts/index.ts';

/** How the five questions are spoken; `colour` is asked as "True". */
export const questionNames: Readonly<Record<Question, string>> = {
  arrived: 'Arrived',
  sharp: 'Sharp',
  exposed: 'Exposed',
  inPlace: 'In place',
  colour: 'True',
};

/** The question as it is spoken; a name that is none is said as it is. */
export function questionName(question: string): string {
  return Object.entries(questionNames).find(([name]) => name === question)?.[1] ?? question;
}

/** What a frame was taken for, in words that need no glossary. */
export const purposeNames: Readonly<Record<Purpose, string>> = {
  picture: 'a picture',
  target: 'colour target or grey card',
  test: 'a test of light or position',
  plate: 'the empty set',
  stack: 'one of a focus stack',
  'light-layer': 'one of several lightings',
};

export const judgementNames: Readonly<Record<Judgement, string>> = {
  good: 'good',
  doubt: 'doubt',
  bad: 'bad',
  unknown: 'unknown',
};

/** How a frame stands as a whole: as its worst verdict that is open, or `accepted` where nothing is open any more. */
export const standingNames: Readonly<Record<Judgement | 'accepted', string>> = {
  ...judgementNames,
  accepted: 'accepted',
};

/** Beside a verdict that is not good and calls nobody. */
export const settledNames: Readonly<Record<'accepted' | 'muted' | 'not-asked', string>> = {
  accepted: 'accepted',
  muted: 'not told',
  'not-asked': 'a test: calls nobody',
};

export const markNames: Readonly<Record<Mark, string>> = {
  hero: 'Hero',
  select: 'Select',
  alternate: 'Alternate',
  out: 'Out',
  none: 'No mark',
};

export const expectedFilesNames: Readonly<Record<ExpectedFiles, string>> = {
  raw: 'raw',
  jpeg: 'JPEG',
  both: 'raw and JPEG',
};

/** What the bytes of a file are, as the trade calls it, after `formats`' kinds. */
const kindNames: ReadonlyMap<string, string> = new Map([
  // Not `unknown`: that is a verdict.
  ['unknown', 'kind not known'],
  ['dng', 'DNG'],
  ['tiff-raw', 'raw'],
  ['iso-bmff-raw', 'raw'],
  ['raf', 'raw'],
  ['tiff', 'TIFF'],
  ['jpeg', 'JPEG'],
  ['png', 'PNG'],
  ['webp', 'WebP'],
]);

/** `JPEG`, `raw`, `text`; a kind without a name of its own is its own name. */
export function kindName(kind: string): string {
  return kindNames.get(kind) ?? kind;
}
