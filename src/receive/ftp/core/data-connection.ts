import type { Turn } from './command.ts';
import { type Asking, ask } from './questions.ts';
import { type Reply, reply } from './reply.ts';

/** RFC 959 section 5.4: a transfer without a way to a data connection is answered 425. */
export const noDataWay: Reply = reply(425, 'Send EPSV or PASV first.');

/** Waits for the data connection if it is not there yet; null once it is, else the last reply of the command. */
export function* meetDataConnection(turn: Turn): Asking<Reply | null> {
  if (turn.state.dataWay === 'connected') return null;
  if (yield* ask('await-data', {})) {
    turn.state.dataWay = 'connected';
    return null;
  }
  dropData(turn);
  if (turn.interruption() === null) {
    turn.report('note', { code: 'line.cannot-dial', args: { address: turn.state.peerAddress } });
    return reply(425, 'Your data port cannot be reached.');
  }
  if (turn.interruption() !== 'no-connection') return reply(426, 'Ended before any data came.');
  turn.report('note', { code: 'line.no-data-connection', args: { address: turn.state.peerAddress } });
  return reply(425, 'Your data connection did not come.');
}

/** One data connection carries one transfer (stream mode, RFC 959 section 3.4.1): afterwards there is none. */
export function dropData(turn: Turn): void {
  turn.closeData();
  turn.state.dataWay = 'none';
}
