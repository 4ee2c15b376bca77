import { type Command, immediate } from '../command.ts';
import { type Reply, reply } from '../reply.ts';
import { factNames, type SessionState } from '../session-state.ts';

/** RFC 2389 section 4: UTF8 (an older practice, always on here) and MLST (RFC 3659 section 7.9). */
export const opts: Command = {
  verb: 'OPTS',
  needs: 'nothing',
  run: immediate(({ state }, argument) => {
    const [name = '', ...rest] = (argument ?? '').trim().split(/ +/);
    switch (name.toUpperCase()) {
      case 'UTF8':
      case 'UTF-8':
        return /^(on)?$/i.test(rest.join(' ')) ? reply(200, 'UTF8 is on.') : reply(504, 'UTF8 is always on.');
      case 'MLST':
        return chooseFacts(state, rest.join(' '));
      default:
        return reply(501, 'There is no such option.');
    }
  }),
};

function chooseFacts(state: SessionState, wanted: string): Reply {
  const names = wanted.toLowerCase().split(';');
  state.facts = factNames.filter((fact) => names.includes(fact));
  return reply(200, `MLST OPTS ${state.facts.map((fact) => `${fact};`).join('')}`.trimEnd());
}
