import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 3.1.2: file structure only. */
export const stru: Command = {
  verb: 'STRU',
  needs: 'login',
  keepsCarry: true,
  run: immediate((_turn, argument) => {
    const wanted = (argument ?? '').toUpperCase().trim();
    if (wanted === 'F') return reply(200, 'File structure.');
    return /^[RP]$/.test(wanted)
      ? reply(504, 'Only file structure is known here.')
      : reply(501, 'There is no such structure.');
  }),
};
