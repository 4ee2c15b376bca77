import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/**
 * RFC 3659 section 5, stream mode: a decimal number of bytes. Fifteen digits are 999 TB, and exact as a number.
 * Whether that many bytes are here is asked when STOR opens the file (554).
 */
export const rest: Command = {
  verb: 'REST',
  needs: 'login',
  run: immediate(({ state }, argument) => {
    if (argument === null || !/^\d{1,15}$/.test(argument)) return reply(501, 'REST takes a number of bytes.');
    state.carry = { kind: 'restart', offsetBytes: Number(argument) };
    return reply(350, `The next STOR begins at byte ${Number(argument)}.`);
  }),
};
