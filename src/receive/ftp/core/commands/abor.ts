import { type Command, immediate } from '../command.ts';
import { dropData } from '../data-connection.ts';
import { reply } from '../reply.ts';

/**
 * RFC 959 section 4.1.3. The session interrupts a running transfer as soon as ABOR is heard; its turn comes after the
 * 426 of that transfer, and all that is left is to give up an unused data connection.
 */
export const abor: Command = {
  verb: 'ABOR',
  needs: 'nothing',
  run: immediate((turn) => {
    dropData(turn);
    return reply(226, 'Nothing is being transferred now.');
  }),
};
