import type { Finding } from '../../../facts/index.ts';
import type { LineReport } from '../../core/door-keeper.ts';
import type { FtpLimits } from './limits.ts';
import type { Asking } from './questions.ts';
import type { Reply } from './reply.ts';
import type { SessionState } from './session-state.ts';
import type { TlsPolicy } from './tls-policy.ts';

/** One FTP command: what it is called, when it may be sent, what it does. */
export interface Command {
  readonly verb: string;
  /** Its other spelling: the X- forms of RFC 775, which RFC 1123 section 4.1.3.1 asks for. */
  readonly alias?: string;
  readonly needs: 'nothing' | 'login';
  /**
   * True for commands that may stand between REST and the STOR it prepares: clients set up the data connection there,
   * and forgetting the offset would store the rest of a file as a whole one.
   */
  readonly keepsCarry?: true;
  /**
   * Works on one line. `argument` is the text after one blank, null where there is none. Returns the last reply, or
   * null where that was said already.
   */
  run(turn: Turn, argument: string | null): Asking<Reply | null>;
}

/** What a command sees of its session while it runs. */
export interface Turn {
  readonly state: SessionState;
  readonly limits: FtpLimits;
  /** Null where the door knows no TLS. */
  readonly tls: TlsPolicy | null;
  /** What REST or RNFR left for this command. */
  readonly carry: SessionState['carry'];
  /** The moment the line came in. */
  readonly nowMs: number;
  /** Says a reply before the last one: the 150 of a transfer. */
  say(reply: Reply): void;
  /** Tells the camera's log. */
  report(change: LineReport['change'], finding: Finding): void;
  /** Gives up the listener and any data connection that is not in use. */
  closeData(): void;
  /** Closes the control connection after the last reply. */
  hangUp(): void;
  /** Throws away the lines that wait: what was said in clear is not to be heard under TLS. */
  forgetInput(): void;
  /** Why the running transfer was interrupted, null while it was not. */
  interruption(): Interruption | null;
}

export type Interruption = 'aborted' | 'control-lost' | 'stopping' | 'dismissed' | 'no-connection';

/** A command that answers at once. */
export function immediate(answer: (turn: Turn, argument: string | null) => Reply): Command['run'] {
  // biome-ignore lint/correctness/useYield: a command of the simplest kind has nothing to ask.
  return function* run(turn, argument) {
    return answer(turn, argument);
  };
}
