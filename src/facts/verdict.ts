import type { Finding } from './finding.ts';

/** What the readings mean against the tolerances. `unknown` is an honest answer, never a quiet `good`. */
export const judgements = ['good', 'doubt', 'bad', 'unknown'] as const;
export type Judgement = (typeof judgements)[number];

/** The five questions in the order a photographer asks them. `colour` is spoken as "True". */
export const questions = ['arrived', 'sharp', 'exposed', 'inPlace', 'colour'] as const;
export type Question = (typeof questions)[number];

export interface Verdict {
  readonly judgement: Judgement;
  /** Why, worst first; at least one. */
  readonly findings: readonly [Finding, ...Finding[]];
  /** The one figure that matters, where there is one. */
  readonly figure?: Figure;
}

export interface Figure {
  readonly value: number;
  /** SI or field unit as printed: `px`, `EV`, `MB`, `%`. */
  readonly unit: string;
}

export type Verdicts = Readonly<Record<Question, Verdict>>;
