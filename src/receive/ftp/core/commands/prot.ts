import { type Command, immediate, type Turn } from '../command.ts';
import { dropData } from '../data-connection.ts';
import { ask } from '../questions.ts';
import { type Reply, reply } from '../reply.ts';

const authFirst = reply(503, 'Send AUTH TLS first.');

/** RFC 2228 section 3, RFC 4217 section 8: TLS has no buffers to agree on, whatever size the client names. */
export const pbsz: Command = {
  verb: 'PBSZ',
  needs: 'nothing',
  run: immediate(({ state, tls }, argument) => {
    if (tls === null) return reply(502, 'Encryption is not known here.');
    if (state.channel === 'clear') return authFirst;
    if (!/^\d{1,10}$/.test(argument ?? '')) return reply(501, 'PBSZ takes a number: 0.');
    state.bufferAgreed = true;
    return reply(200, 'PBSZ=0');
  }),
};

/**
 * RFC 2228 section 3, RFC 4217 section 9: the data connections from here on. One that is being set up belongs to the
 * level before and is given up.
 */
export const prot: Command = {
  verb: 'PROT',
  needs: 'nothing',
  *run(turn, argument) {
    const level = (argument ?? '').trim().toUpperCase();
    const refused = refusal(turn, level);
    if (refused !== null) return refused;
    const isPrivate = level === 'P';
    dropData(turn);
    yield* ask('protect', { isPrivate });
    turn.state.protection = isPrivate ? 'private' : 'clear';
    return reply(200, isPrivate ? 'Data connections are encrypted.' : 'Data connections are in clear.');
  },
};

function refusal({ state, tls }: Turn, level: string): Reply | null {
  if (tls === null) return reply(502, 'Encryption is not known here.');
  if (state.channel === 'clear') return authFirst;
  if (!state.bufferAgreed) return reply(503, 'Send PBSZ 0 first.');
  if (level === 'S' || level === 'E') return reply(536, 'TLS knows the levels C and P.');
  if (level !== 'C' && level !== 'P') return reply(504, 'There is no such level.');
  return level === 'C' && tls.clearText === 'refused' ? reply(534, 'Files are taken encrypted only.') : null;
}

/** RFC 4217 section 12: going back to clear is never granted; the log-in and names would cross in clear again. */
export const ccc: Command = {
  verb: 'CCC',
  needs: 'nothing',
  run: immediate(({ state, tls }) => {
    if (tls === null) return reply(502, 'Encryption is not known here.');
    return state.channel === 'tls'
      ? reply(534, 'What began encrypted stays encrypted.')
      : reply(533, 'This connection is in clear.');
  }),
};
