import type { Turn } from './command.ts';
import { type Asking, ask } from './questions.ts';
import { type Reply, reply } from './reply.ts';

/** RFC 959 section 5.4: a transfer without a way to a data connection is answered 425. */
export const noDataWay: Reply = reply(425, 'Send EPSV or PASV first.');

/** What speaks against a transfer before it begins; null where nothing does. 521: RFC 4217 section 10. */
export function refusedTransfer({ state, tls }: Turn): Reply | null {
  if (tls?.clearText === 'refused' && state.protection === 'clear') {
    return reply(521, 'Files are taken encrypted only: send PBSZ 0 and PROT P first.');
  }
  return state.dataWay === 'none' ? noDataWay : null;
}

/**
 * Waits for the data connection if it is not there yet, and for its handshake if it is to be protected; null once all
 * is well, else the last reply of the command. The 150 goes before: a client may wait for it with its handshake
 * (RFC 4217 section 7).
 */
export function* meetDataConnection(turn: Turn): Asking<Reply | null> {
  const missed = yield* meetConnection(turn);
  return missed === null && turn.state.protection === 'private' ? yield* secureData(turn) : missed;
}

function* secureData(turn: Turn): Asking<Reply | null> {
  const outcome = yield* ask('secure-data', {});
  if (outcome === 'secured') return null;
  dropData(turn);
  if (turn.interruption() !== null) return reply(426, 'Ended before any data came.');
  const { peerAddress: address } = turn.state;
  const code = outcome === 'not-resumed' ? 'line.data-not-resumed' : 'line.data-not-secured';
  turn.report('note', { code, args: { address } });
  return outcome === 'not-resumed'
    ? reply(522, 'Resume the TLS session of this connection for its data.')
    : reply(522, 'The TLS handshake of the data connection failed.');
}

function* meetConnection(turn: Turn): Asking<Reply | null> {
  if (turn.state.dataWay === 'connected') return null;
  if (yield* ask('await-data', {})) {
    turn.state.dataWay = 'connected';
    return null;
  }
  const dialled = turn.state.dataWay === 'aimed';
  dropData(turn);
  const missed = turn.interruption();
  // A wall that drops what it does not know lets a dial run out of time; one that rejects it ends it at once.
  if (missed === null || (missed === 'no-connection' && dialled)) {
    turn.report('note', { code: 'line.cannot-dial', args: { address: turn.state.peerAddress } });
    return reply(425, 'Your data port cannot be reached.');
  }
  if (missed !== 'no-connection') return reply(426, 'Ended before any data came.');
  turn.report('note', { code: 'line.no-data-connection', args: { address: turn.state.peerAddress } });
  return reply(425, 'Your data connection did not come.');
}

/** One data connection carries one transfer (stream mode, RFC 959 section 3.4.1): afterwards there is none. */
export function dropData(turn: Turn): void {
  turn.closeData();
  turn.state.dataWay = 'none';
}
