import type { Command } from '../command.ts';
import { destination, replyFor } from '../destination.ts';
import { askChange } from '../questions.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 4.1.3; the current folder and the root stay. */
export const rmd: Command = {
  verb: 'RMD',
  alias: 'XRMD',
  needs: 'login',
  *run(turn, argument) {
    const where = destination(turn, argument);
    if ('refusal' in where) return where.refusal;
    if (isAtOrAbove(where.path, turn.state.cwd)) return reply(550, 'You are in that folder.');
    return replyFor(
      yield* askChange('remove-folder', { path: where.path }),
      reply(250, 'The folder is gone.'),
    );
  },
};

function isAtOrAbove(path: string, cwd: string): boolean {
  return path === '/' || path === cwd || cwd.startsWith(`${path}/`);
}
