import type { Command } from '../command.ts';
import { destination } from '../destination.ts';
import { momentToTimeVal, timeValToMoment } from '../moment.ts';
import { askChange } from '../questions.ts';
import { folderRefusal } from '../refusals.ts';
import { reply } from '../reply.ts';

/** draft-somers-ftp-mfxx, "The MFMT command": sets the time that MDTM then tells. */
export const mfmt: Command = {
  verb: 'MFMT',
  needs: 'login',
  *run(turn, argument) {
    const match = /^(\S+) (.+)$/s.exec(argument ?? '');
    const modifiedMs = timeValToMoment(match?.[1] ?? '');
    if (match === null || modifiedMs === null)
      return reply(501, 'MFMT takes a time YYYYMMDDHHMMSS and a name.');
    const where = destination(turn, match[2] ?? null);
    if ('refusal' in where) return where.refusal;
    const set = yield* askChange('set-modified', { path: where.path, modifiedMs });
    if (!set.ok) return folderRefusal(set.code);
    return reply(213, `Modify=${momentToTimeVal(modifiedMs)}; ${where.path}`);
  },
};
