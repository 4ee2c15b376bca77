import { SetsideError } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';

/**
 * What follows of a failure. `again`: the same may go well in a moment. `file`: this file is not sent, the others are. `stop`: the next
 * file would fare no better, a person has to do something.
 */
export type Next = 'again' | 'file' | 'stop';

/** Why something was not sent. Never holds a secret, nor a server's own words: code and figures only. */
export class SendFailure extends SetsideError {
  readonly finding: Finding;
  readonly next: Next;

  constructor(next: Next, code: `send.${string}`, args: Finding['args'] = {}, cause?: unknown) {
    super(code, code, { cause, retryable: next === 'again' });
    this.finding = { code, args };
    this.next = next;
  }
}
