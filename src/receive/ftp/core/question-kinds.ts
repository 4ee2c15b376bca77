import type { QuestionName } from './questions.ts';

/** Questions that end early when told so; the others are short or must not be cut. */
export const interruptible: readonly (QuestionName | null)[] = [
  'await-data',
  'secure-data',
  'receive',
  'send',
  'pause',
  'spend',
  'secure',
];
export const transferring: readonly (QuestionName | null)[] = [
  'await-data',
  'secure-data',
  'receive',
  'send',
];
/** A file being made durable may take a while on a slow disk: a client that asks is told that nobody has gone. */
export const keeping: readonly (QuestionName | null)[] = ['open', 'finish'];

/** What STAT says of a transfer. */
export function transferText(question: QuestionName | null, bytes: number): string {
  return question === 'finish'
    ? `${bytes} bytes received, now being made durable`
    : `${bytes} bytes transferred so far`;
}
