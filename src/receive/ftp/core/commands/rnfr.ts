import type { Command } from '../command.ts';
import { destination, existing } from '../destination.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 4.1.3: RNTO must follow directly. */
export const rnfr: Command = {
  verb: 'RNFR',
  needs: 'login',
  *run(turn, argument) {
    const found = yield* existing(destination(turn, argument));
    if ('refusal' in found) return found.refusal;
    turn.state.carry = { kind: 'rename', from: found.path };
    return reply(350, 'Now the new name.');
  },
};
