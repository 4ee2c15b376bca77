import type { Command } from '../command.ts';
import { abor } from './abor.ts';
import { allo } from './allo.ts';
import { appe } from './appe.ts';
import { auth } from './auth.ts';
import { cdup, cwd } from './cwd.ts';
import { dele } from './dele.ts';
import { epsv } from './epsv.ts';
import { feat } from './feat.ts';
import { helpFor } from './help.ts';
import { list } from './list.ts';
import { mdtm } from './mdtm.ts';
import { mfmt } from './mfmt.ts';
import { mkd } from './mkd.ts';
import { mlsd } from './mlsd.ts';
import { mlst } from './mlst.ts';
import { mode } from './mode.ts';
import { nlst } from './nlst.ts';
import { noop } from './noop.ts';
import { notHere, retr } from './not-here.ts';
import { opts } from './opts.ts';
import { pass } from './pass.ts';
import { pasv } from './pasv.ts';
import { eprt, port } from './port.ts';
import { ccc, pbsz, prot } from './prot.ts';
import { pwd } from './pwd.ts';
import { quit } from './quit.ts';
import { rest } from './rest.ts';
import { rmd } from './rmd.ts';
import { rnfr } from './rnfr.ts';
import { rnto } from './rnto.ts';
import { site } from './site.ts';
import { size } from './size.ts';
import { stat } from './stat.ts';
import { stor } from './stor.ts';
import { stou } from './stou.ts';
import { stru } from './stru.ts';
import { syst } from './syst.ts';
import { type } from './type.ts';
import { user } from './user.ts';

// biome-ignore format: grouped as RFC 959 section 4.1 groups them.
const works: readonly Command[] = [
  user, pass, quit, cwd, cdup, auth, pbsz, prot, ccc,
  type, mode, stru, pasv, epsv, port, eprt,
  stor, stou, appe, allo, rest, rnfr, rnto, abor, dele, rmd, mkd, pwd, list, nlst, mlsd, mlst, size, mdtm, mfmt,
  syst, stat, feat, opts, noop,
];

const all: readonly Command[] = [
  ...works,
  helpFor([...works.map(({ verb }) => verb), 'SITE', 'HELP'].sort()),
  site,
  retr,
  ...notHere,
];

/** Every command by its verb and its alias, in capitals. */
export const commands: ReadonlyMap<string, Command> = new Map(
  all.flatMap((command) =>
    [command.verb, command.alias ?? command.verb].map((verb): [string, Command] => [verb, command]),
  ),
);
