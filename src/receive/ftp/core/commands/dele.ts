import { takenOutFinding } from '../../../core/change-findings.ts';
import type { Command } from '../command.ts';
import { destination, replyFor } from '../destination.ts';
import { askChange } from '../questions.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 4.1.3. The folder only hides the file: what was kept stays kept. */
export const dele: Command = {
  verb: 'DELE',
  needs: 'login',
  *run(turn, argument) {
    const where = destination(turn, argument);
    if ('refusal' in where) return where.refusal;
    const hidden = yield* askChange('hide', { path: where.path });
    if (hidden.ok) turn.report('note', takenOutFinding(where.path));
    return replyFor(hidden, reply(250, 'The file is out of the folder.'));
  },
};
