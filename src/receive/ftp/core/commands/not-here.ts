import { type Command, immediate } from '../command.ts';
import { dropData } from '../data-connection.ts';
import { type Reply, reply } from '../reply.ts';

/** A command that does nothing at this door, always with the same reply. */
function always(verb: string, answer: Reply, needs: Command['needs'] = 'login'): Command {
  return { verb, needs, run: immediate(() => answer) };
}

/** RFC 959 section 4.1.3. What was kept leaves the station by its pages and deliveries, not by FTP. */
export const retr: Command = {
  verb: 'RETR',
  needs: 'login',
  run: immediate((turn) => {
    dropData(turn);
    return reply(550, 'The station takes files in; it does not hand them back this way.');
  }),
};

/** RFC 959 and its successors name them, so they are answered 502, not 500 (or 202 where nothing is lacking). */
export const notHere: readonly Command[] = [
  // RFC 2228: the one mechanism here is TLS, which needs no ADAT and wraps the whole connection.
  always('ADAT', reply(502, 'TLS needs no ADAT.'), 'nothing'),
  always('ACCT', reply(202, 'No account is needed.')),
  always('SMNT', reply(502, 'There is nothing to mount here.')),
  always('REIN', reply(502, 'Connect again for another user.'), 'nothing'),
  // draft-somers-ftp-mfxx: of all facts only the time of change is kept, and MFMT sets it.
  always('MFF', reply(502, 'Only the time of change is kept: use MFMT.')),
  always('MFCT', reply(502, 'Only the time of change is kept: use MFMT.')),
  // RFC 1639, RFC 2640 section 4.1, RFC 7151: long addresses have EPRT and EPSV, and one language and one host are spoken.
  always('LPRT', reply(502, 'Use EPRT.')),
  always('LPSV', reply(502, 'Use EPSV.')),
  always('LANG', reply(502, 'Only English is spoken here.'), 'nothing'),
  always('HOST', reply(502, 'This is the only host here.'), 'nothing'),
  // Common practice, no source: a client says its own name and wants to hear 200.
  always('CLNT', reply(200, 'Welcome.'), 'nothing'),
];
