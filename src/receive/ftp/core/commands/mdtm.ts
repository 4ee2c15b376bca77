import type { Command } from '../command.ts';
import { destination, existing } from '../destination.ts';
import { momentToTimeVal, timeValToMoment } from '../moment.ts';
import { askChange } from '../questions.ts';
import { folderRefusal } from '../refusals.ts';
import { reply } from '../reply.ts';

/**
 * RFC 3659 section 3, in UTC. `MDTM YYYYMMDDHHMMSS name` sets the time, as MFMT does: older than MFMT and still sent
 * (common practice, no source). Where a file has that very name, it is asked for and not set.
 */
export const mdtm: Command = {
  verb: 'MDTM',
  needs: 'login',
  *run(turn, argument) {
    const found = yield* existing(destination(turn, argument));
    if (!('refusal' in found)) {
      return found.entry.kind === 'file'
        ? reply(213, momentToTimeVal(found.entry.modifiedMs))
        : folderRefusal('not-a-file');
    }
    const [, time = '', name = ''] = /^(\S+) (.+)$/s.exec(argument ?? '') ?? [];
    const modifiedMs = timeValToMoment(time);
    const where = destination(turn, name);
    if (modifiedMs === null || 'refusal' in where) return found.refusal;
    const set = yield* askChange('set-modified', { path: where.path, modifiedMs });
    return set.ok ? reply(213, momentToTimeVal(modifiedMs)) : folderRefusal(set.code);
  },
};
