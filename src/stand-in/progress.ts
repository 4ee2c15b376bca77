import type { Finding } from '../facts/index.ts';

/** What the stand-in is doing, as codes; `words` makes the sentences. */
export type StandInCode =
  /** args: `shot`, `share` 0 … 1. */
  | 'stand-in.rendering'
  /** args: `name`, `shot`, `purpose`, `bytes`. */
  | 'stand-in.shot'
  /** args: `name`, `sentBytes`, `bytes`. */
  | 'stand-in.sending'
  /** args: `name`, `bytes`. The station has answered that it has the file. */
  | 'stand-in.sent'
  /** args: `name`, `bytes`. The same for a duplicate that was ordered. */
  | 'stand-in.sent-again'
  /** args: `name`, `sentBytes`, `why`, `retriesLeft`. */
  | 'stand-in.broke-off'
  /** args: `name`, `fromBytes`. */
  | 'stand-in.resuming'
  /** args: `frames`. */
  | 'stand-in.done';

export interface StandInProgress extends Finding {
  readonly code: StandInCode;
}

export type OnProgress = (progress: StandInProgress) => void;
