import type { Finding } from '../../../facts/index.ts';
import type { LineReport } from '../../core/door-keeper.ts';
import type { Interruption } from './command.ts';
import type { ControlInput } from './line-reader.ts';
import type { Question } from './questions.ts';

/** What happens to a session. The shell feeds these, each with the moment it happened. */
export type SessionEvent =
  | { readonly kind: 'opened' }
  /** `transferredBytes`: of the running transfer so far, for STAT. */
  | { readonly kind: 'input'; readonly input: ControlInput; readonly transferredBytes: number }
  /** The answer to the question that is open. */
  | { readonly kind: 'done'; readonly answer: unknown }
  | { readonly kind: 'data-connected' }
  /** Somebody else reached our data port and was turned away. */
  | { readonly kind: 'foreign-data'; readonly address: string }
  /** The moment of {@link FtpSession.alarmAtMs} has come. */
  | { readonly kind: 'alarm' }
  /** The client closed its side of the control connection in order; what it sent before was fed before. */
  | { readonly kind: 'control-ended' }
  /** The control connection broke. */
  | { readonly kind: 'control-lost' }
  /** The station is being shut down. */
  | { readonly kind: 'stopping' }
  /** The camera that is logged in may not stay. */
  | { readonly kind: 'dismissed' };

/** What a session wants done. */
export type Wish =
  | { readonly kind: 'ask'; readonly question: Question }
  | { readonly kind: 'send'; readonly bytes: Uint8Array }
  | { readonly kind: 'report'; readonly change: LineReport['change']; readonly finding: Finding }
  | { readonly kind: 'close-data' }
  /** End the open question early; it is answered all the same. */
  | { readonly kind: 'interrupt'; readonly why: Interruption }
  /** Close the control connection once everything was sent. Said once; nothing comes after it. */
  | { readonly kind: 'hang-up' };
