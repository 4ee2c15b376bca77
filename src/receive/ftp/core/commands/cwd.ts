import { nameOf } from '../../../core/path.ts';
import type { Command, Turn } from '../command.ts';
import { destination, existing } from '../destination.ts';
import type { Asking } from '../questions.ts';
import { folderRefusal, noFolder } from '../refusals.ts';
import { quotePath, type Reply, reply } from '../reply.ts';

/** RFC 959 section 4.1.1. A refusal leaves the current folder as it was. */
export const cwd: Command = {
  verb: 'CWD',
  alias: 'XCWD',
  needs: 'login',
  run: changeFolder,
};

/** CDUP is CWD to the parent, RFC 959 section 4.1.1; at the root it stays there. */
export const cdup: Command = {
  verb: 'CDUP',
  alias: 'XCUP',
  needs: 'login',
  run: (turn) => changeFolder(turn, '..'),
};

function* changeFolder(turn: Turn, argument: string | null): Asking<Reply> {
  const where = destination(turn, argument);
  const found = yield* existing(where);
  if ('refusal' in found) {
    if (found.refusal.why !== 'not-found' || 'refusal' in where) return found.refusal;
    turn.state.missedFolder = { name: nameOf(where.path), why: 'no-folder' };
    return noFolder;
  }
  if (found.entry.kind !== 'folder') {
    turn.state.missedFolder = { name: nameOf(found.path), why: 'not-a-folder' };
    return folderRefusal('not-a-folder');
  }
  turn.state.cwd = found.path;
  return reply(250, `${quotePath(found.path)} is the current folder.`);
}
