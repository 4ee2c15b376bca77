import type { Command } from '../command.ts';
import { ask } from '../questions.ts';
import { reply } from '../reply.ts';

/** RFC 2428 sections 3 and 4. Protocol 1 is IPv4, 2 is IPv6; the data connection uses that of the control connection. */
export const epsv: Command = {
  verb: 'EPSV',
  needs: 'login',
  keepsCarry: true,
  *run({ state }, argument) {
    const wanted = (argument ?? '').trim().toUpperCase();
    if (wanted === 'ALL') {
      state.epsvOnly = true;
      return reply(200, 'Only EPSV from here on.');
    }
    const protocol = state.localAddress.includes(':') ? '2' : '1';
    if (wanted !== '' && wanted !== protocol) {
      return /^\d+$/.test(wanted)
        ? reply(522, `Network protocol not supported, use (${protocol})`)
        : reply(501, 'EPSV takes a protocol number or ALL.');
    }
    const listening = yield* ask('listen', {});
    state.dataWay = listening === null ? 'none' : 'listening';
    return listening === null
      ? reply(425, 'No data port is free.')
      : reply(229, `Entering Extended Passive Mode (|||${listening.port}|)`);
  },
};
