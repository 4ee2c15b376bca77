import type { Command } from '../command.ts';
import { destination, existing } from '../destination.ts';
import { folderRefusal } from '../refusals.ts';
import { reply } from '../reply.ts';

/** RFC 3659 section 4. The same in every TYPE, since none changes a byte. */
export const size: Command = {
  verb: 'SIZE',
  needs: 'login',
  *run(turn, argument) {
    const found = yield* existing(destination(turn, argument));
    if ('refusal' in found) return found.refusal;
    return found.entry.kind === 'file'
      ? reply(213, String(found.entry.sizeBytes))
      : folderRefusal('not-a-file');
  },
};
