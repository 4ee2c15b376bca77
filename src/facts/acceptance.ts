import type { Judgement, Question } from './verdict.ts';

/** Somebody took a verdict that is not good upon themselves, by name and with a reason. */
export interface Acceptance {
  readonly question: Question;
  /** The verdict as it was then: a worse one later is not covered. */
  readonly judgement: Exclude<Judgement, 'good'>;
  readonly name: string;
  readonly reason: string;
}
