import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

const tlsFirst = reply(530, 'Log in encrypted only: send AUTH TLS first.');

/** RFC 959 section 4.1.1. The reply is the same for any name (RFC 2577 section 7). */
export const user: Command = {
  verb: 'USER',
  needs: 'nothing',
  run: immediate(({ state, tls }, argument) => {
    if (state.camera !== null) return reply(503, 'You are logged in. Connect again for another user.');
    // RFC 4217 section 4.2: before the name is known, so that nobody is told apart and no password follows.
    if (tls?.clearText === 'refused' && state.channel === 'clear') return tlsFirst;
    if (argument === null || argument === '') return reply(501, 'A user name is missing.');
    state.user = argument;
    return reply(331, 'Now the password.');
  }),
};
