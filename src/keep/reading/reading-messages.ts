import type { CardProgress, CardReport } from '../card/card-report.ts';
import type { PutBackOutcome } from '../copies/put-back.ts';
import type { FileReadAgain, ReadAgainEnd, ReadAgainOptions } from './read-again.ts';
import type { ReadingPace } from './reading.ts';

export interface CardToRead {
  readonly home: string;
  readonly folder: string;
  readonly memoryCounts: boolean;
  /** For tests, which have no card: the device it is taken to lie on, decimal. */
  readonly cardDevice?: string;
}

/** What a reading process is asked: one thing in its life, and how fast. */
export type ReadingRequest =
  | { readonly kind: 'card'; readonly card: CardToRead }
  | { readonly kind: 'again'; readonly options: ReadAgainOptions; readonly pace: ReadingPace }
  | { readonly kind: 'put-back'; readonly home: string; readonly names: readonly string[] }
  | { readonly kind: 'pace'; readonly pace: ReadingPace };

export type ReadingNews =
  | { readonly kind: 'card-progress'; readonly progress: CardProgress }
  | { readonly kind: 'card-done'; readonly report: CardReport }
  | { readonly kind: 'file'; readonly read: FileReadAgain }
  | { readonly kind: 'again-done'; readonly end: ReadAgainEnd }
  | { readonly kind: 'put-back-done'; readonly outcomes: readonly PutBackOutcome[] }
  | { readonly kind: 'failed'; readonly code: string; readonly message: string };
