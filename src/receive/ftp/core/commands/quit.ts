import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 4.1.1. Commands wait for a running transfer, so QUIT comes after its last reply. */
export const quit: Command = {
  verb: 'QUIT',
  needs: 'nothing',
  run: immediate((turn) => {
    turn.hangUp();
    return reply(221, 'Goodbye.');
  }),
};
