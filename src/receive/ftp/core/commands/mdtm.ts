import type { Command } from '../command.ts';
import { destination, existing } from '../destination.ts';
import { momentToTimeVal } from '../moment.ts';
import { folderRefusal } from '../refusals.ts';
import { reply } from '../reply.ts';

/** RFC 3659 section 3, in UTC. */
export const mdtm: Command = {
  verb: 'MDTM',
  needs: 'login',
  *run(turn, argument) {
    const found = yield* existing(destination(turn, argument));
    if ('refusal' in found) return found.refusal;
    return found.entry.kind === 'file'
      ? reply(213, momentToTimeVal(found.entry.modifiedMs))
      : folderRefusal('not-a-file');
  },
};
