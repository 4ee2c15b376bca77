import type { Command } from '../command.ts';
import { ask } from '../questions.ts';
import { reply } from '../reply.ts';

/**
 * RFC 959 section 4.1.2; RFC 1123 section 4.1.2.6 asks for a fresh port each time. The address is the one the client
 * reached us by. It has room for IPv4 only, so an IPv6 client is sent to EPSV.
 */
export const pasv: Command = {
  verb: 'PASV',
  needs: 'login',
  keepsCarry: true,
  *run({ state }) {
    if (state.epsvOnly) return reply(503, 'After EPSV ALL only EPSV is taken.');
    if (state.localAddress.includes(':'))
      return reply(522, 'PASV has no room for this address, use EPSV (2)');
    const listening = yield* ask('listen', {});
    state.dataWay = listening === null ? 'none' : 'listening';
    if (listening === null) return reply(425, 'No data port is free.');
    const { port } = listening;
    const numbers = [...state.localAddress.split('.'), port >> 8, port & 0xff].join(',');
    return reply(227, `Entering Passive Mode (${numbers}).`);
  },
};
