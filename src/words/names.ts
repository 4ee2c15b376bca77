import type { ExpectedFiles, Judgement, Mark, Question } from '../facts/index.ts';

/** How the five questions are spoken; `colour` is asked as "True". */
export const questionNames: Readonly<Record<Question, string>> = {
  arrived: 'Arrived',
  sharp: 'Sharp',
  exposed: 'Exposed',
  inPlace: 'In place',
  colour: 'True',
};

export const judgementNames: Readonly<Record<Judgement, string>> = {
  good: 'good',
  doubt: 'doubt',
  bad: 'bad',
  unknown: 'unknown',
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
