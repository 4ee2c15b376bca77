import type { Command } from '../command.ts';
import { destination, replyFor } from '../destination.ts';
import { askChange } from '../questions.ts';
import { quotePath, reply } from '../reply.ts';

/** RFC 959 appendix II: the name that comes back can be used for CWD as it is. */
export const mkd: Command = {
  verb: 'MKD',
  alias: 'XMKD',
  needs: 'login',
  *run(turn, argument) {
    const where = destination(turn, argument);
    if ('refusal' in where) return where.refusal;
    const made = yield* askChange('make-folder', { path: where.path });
    if (made.ok) turn.state.missedFolder = null;
    // The folder's own text speaks of files that arrive; and no waiting makes room for a folder.
    if (!made.ok && made.code === 'too-many') return reply(550, 'There are too many folders.');
    return replyFor(made, reply(257, `${quotePath(where.path)} is made.`));
  },
};
