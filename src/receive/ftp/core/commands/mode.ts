import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 3.4: stream only. */
export const mode: Command = {
  verb: 'MODE',
  needs: 'login',
  keepsCarry: true,
  run: immediate((_turn, argument) => {
    const wanted = (argument ?? '').toUpperCase().trim();
    if (wanted === 'S') return reply(200, 'Stream mode.');
    return /^[BCZ]$/.test(wanted)
      ? reply(504, 'Only stream mode is known here.')
      : reply(501, 'There is no such mode.');
  }),
};
