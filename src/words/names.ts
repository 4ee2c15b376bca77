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
