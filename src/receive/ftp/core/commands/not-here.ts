import { type Command, immediate } from '../command.ts';
import { dropData } from '../data-connection.ts';
import { type Reply, reply } from '../reply.ts';

/** A command of the standards that this door refuses, always with the same reply. */
function refused(verb: string, answer: Reply, needs: Command['needs'] = 'login'): Command {
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

const noTls = reply(502, 'Encryption is not known here.');

/** RFC 959 and its successors name them, so they are answered 502, not 500. */
export const notHere: readonly Command[] = [
  refused('AUTH', noTls, 'nothing'),
  refused('ADAT', noTls, 'nothing'),
  refused('PBSZ', noTls, 'nothing'),
  refused('PROT', noTls, 'nothing'),
  refused('CCC', noTls, 'nothing'),
  refused('ACCT', reply(202, 'No account is needed.')),
  refused('STOU', reply(502, 'Name the file: use STOR.')),
  refused('SITE', reply(502, 'There are no SITE commands here.')),
  refused('SMNT', reply(502, 'There is nothing to mount here.')),
  refused('REIN', reply(502, 'Connect again for another user.'), 'nothing'),
];
