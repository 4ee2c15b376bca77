import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/**
 * RFC 959 section 3.1.1. A is accepted and changes nothing: it is the default, small clients never send TYPE, and a
 * picture whose line ends were translated would be ruined.
 */
export const type: Command = {
  verb: 'TYPE',
  needs: 'login',
  keepsCarry: true,
  run: immediate((_turn, argument) => {
    const wanted = (argument ?? '').toUpperCase().trim();
    if (/^(I|L 8|A|A N)$/.test(wanted)) return reply(200, 'Bytes are taken as they come.');
    if (/^(E|E [NTC]|A [TC]|L \d{1,3})$/.test(wanted))
      return reply(504, 'Only types I, A and L 8 are taken.');
    return reply(501, 'There is no such type.');
  }),
};
