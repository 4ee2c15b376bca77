import { renamedFinding } from '../../../core/change-findings.ts';
import type { Command } from '../command.ts';
import { destination, replyFor } from '../destination.ts';
import { askChange } from '../questions.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 4.1.3. A taken name is refused: nothing is ever replaced by a rename. */
export const rnto: Command = {
  verb: 'RNTO',
  needs: 'login',
  *run(turn, argument) {
    if (turn.carry?.kind !== 'rename') return reply(503, 'Send RNFR directly before RNTO.');
    const where = destination(turn, argument);
    if ('refusal' in where) return where.refusal;
    const { from } = turn.carry;
    const renamed = yield* askChange('rename', { from, to: where.path });
    const news = renamed.ok ? renamedFinding(from, where.path) : null;
    if (news !== null) turn.report('note', news);
    if (!renamed.ok && renamed.code === 'exists') return reply(553, 'That name is taken.');
    return replyFor(renamed, reply(250, 'Renamed.'));
  },
};
