import type { Command, Turn } from '../command.ts';
import { ask } from '../questions.ts';
import { type Reply, reply } from '../reply.ts';

/**
 * RFC 4217 section 4. `TLS-C` and `SSL` are older spellings that clients still send (curl tries `SSL` first). All of
 * them leave data connections in clear until PROT P, as section 9 has it.
 */
const mechanisms: readonly string[] = ['TLS', 'TLS-C', 'SSL'];

/**
 * Turns the control connection to TLS. Lines that came behind AUTH were said in clear, by whom nobody knows; they are
 * thrown away, never heard under TLS.
 */
export const auth: Command = {
  verb: 'AUTH',
  needs: 'nothing',
  *run(turn, argument) {
    const refused = refusal(turn, argument);
    if (refused !== null) return refused;
    turn.forgetInput();
    const { state } = turn;
    const outcome = yield* ask('secure', { ready: reply(234, 'Begin TLS.') });
    if (outcome === 'busy') return reply(431, 'Too many are beginning TLS at once. Try again in a moment.');
    if (outcome === 'secured') state.channel = 'tls';
    state.user = null;
    return null;
  },
};

function refusal({ state, tls }: Turn, argument: string | null): Reply | null {
  if (tls === null) return reply(502, 'Encryption is not known here.');
  if (state.channel === 'tls') return reply(503, 'This connection is encrypted.');
  if (state.camera !== null) return reply(503, 'You are logged in. Connect again and send AUTH first.');
  if (argument === null || argument === '') return reply(501, 'AUTH takes a mechanism: TLS.');
  return mechanisms.includes(argument.trim().toUpperCase())
    ? null
    : reply(504, 'The one mechanism here is TLS.');
}
