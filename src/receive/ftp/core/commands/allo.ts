import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/**
 * RFC 959 section 4.1.3. The size is remembered for the next file: it tells a cut from an end. Nothing is set aside for it,
 * so nothing is promised; whether there is room is said to the STOR.
 */
export const allo: Command = {
  verb: 'ALLO',
  needs: 'login',
  keepsCarry: true,
  run: immediate(({ state }, argument) => {
    const match = /^(\d{1,15})(?: R \d{1,15})?$/i.exec((argument ?? '').trim());
    if (match === null) return reply(501, 'ALLO takes a number of bytes.');
    state.announcedBytes = Number(match[1]);
    return reply(200, `${state.announcedBytes} bytes are noted.`);
  }),
};
