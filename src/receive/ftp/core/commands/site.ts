import type { Command, Turn } from '../command.ts';
import { destination } from '../destination.ts';
import { timeValToMoment } from '../moment.ts';
import { type Asking, askChange } from '../questions.ts';
import { folderRefusal } from '../refusals.ts';
import { type Reply, reply } from '../reply.ts';

/**
 * RFC 959 section 4.1.3: what a site has of its own. Here it is what clients send after an upload, whether it was
 * asked for or not, and then tell their user that the upload failed. All of it is common practice, no source.
 */
export const site: Command = {
  verb: 'SITE',
  needs: 'login',
  *run(turn, argument) {
    const [, name = '', rest = ''] = /^ *(\S*) *(.*)$/s.exec(argument ?? '') ?? [];
    switch (name.toUpperCase()) {
      case 'HELP':
        return siteHelp;
      case 'CHMOD':
      case 'UMASK':
        // RFC 959 section 4.2: not implemented, superfluous at this site.
        return reply(202, 'There are no modes here; nobody but the camera changes its files.');
      case 'UTIME':
        return yield* setTime(turn, rest);
      default:
        return reply(501, 'There is no such SITE command.');
    }
  },
};

export const siteHelp: Reply = { code: 214, text: 'SITE commands:', inner: ['CHMOD HELP UMASK UTIME'] };

function* setTime(turn: Turn, argument: string): Asking<Reply> {
  const wanted = parseUtime(argument);
  if (wanted === null) return reply(501, 'SITE UTIME takes a time YYYYMMDDHHMM[SS] and a name.');
  const where = destination(turn, wanted.name);
  if ('refusal' in where) return where.refusal;
  const set = yield* askChange('set-modified', { path: where.path, modifiedMs: wanted.modifiedMs });
  return set.ok ? reply(200, 'The time is set.') : folderRefusal(set.code);
}

/**
 * Two forms are about: a time and a name, or a name, three times (read, changed, made) and `UTC`. The time of change is
 * kept, the others are not.
 */
export function parseUtime(argument: string): { name: string; modifiedMs: number } | null {
  const three = /^(.+) \d{12,14} (\d{12}|\d{14}) \d{12,14} UTC$/s.exec(argument);
  const one = /^(\d{12}|\d{14}) (.+)$/s.exec(argument);
  const name = three?.[1] ?? one?.[2];
  const modifiedMs = timeValToMoment((three?.[2] ?? one?.[1] ?? '').padEnd(14, '0'));
  return name === undefined || modifiedMs === null ? null : { name, modifiedMs };
}
