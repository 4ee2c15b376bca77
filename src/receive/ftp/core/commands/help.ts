import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';
import { siteHelp } from './site.ts';

/**
 * RFC 959 section 4.1.3: the commands of this door, or word of one of them. `HELP SITE` is what NcFTP 3.2.6 asks before
 * it sets times.
 */
export function helpFor(verbs: readonly string[]): Command {
  const lines = Array.from({ length: Math.ceil(verbs.length / 8) }, (_, row) =>
    verbs.slice(row * 8, row * 8 + 8).join(' '),
  );
  return {
    verb: 'HELP',
    needs: 'nothing',
    run: immediate((_turn, argument) => {
      const asked = (argument ?? '').trim().toUpperCase();
      if (asked === '') return { code: 214, text: 'Commands:', inner: lines };
      if (asked === 'SITE') return siteHelp;
      return verbs.includes(asked)
        ? reply(214, `${asked} is known here.`)
        : reply(502, 'That is not known here.');
    }),
  };
}
