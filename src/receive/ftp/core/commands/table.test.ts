import { expect, test } from 'vitest';
import { easyScript, Talk } from '../../../testing/talk.ts';
import { commands } from './table.ts';

/**
 * What an FTP server has to know, by the standards' own lists (that of RFC 1123 section 4.1.2.13, the minimum, from
 * memory).
 */
const wanted = {
  'RFC 1123 section 4.1.2.13': [
    ...[
      'USER',
      'PASS',
      'ACCT',
      'PORT',
      'TYPE',
      'MODE',
      'STRU',
      'RETR',
      'STOR',
      'RNFR',
      'RNTO',
      'DELE',
      'CWD',
    ],
    ...['CDUP', 'RMD', 'MKD', 'PWD', 'LIST', 'NLST', 'SYST', 'STAT', 'HELP', 'NOOP', 'QUIT'],
  ],
  'RFC 1123 sections 4.1.2.6 to 4.1.2.9': ['PASV', 'SITE', 'STOU'],
  'RFC 1123 section 4.1.3.1': ['XMKD', 'XRMD', 'XPWD', 'XCUP', 'XCWD'],
  'RFC 959 section 4.1': ['REST', 'APPE', 'ALLO', 'ABOR', 'REIN', 'SMNT'],
  'RFC 2389': ['FEAT', 'OPTS'],
  'RFC 2428': ['EPRT', 'EPSV'],
  'RFC 3659': ['MDTM', 'SIZE', 'MLST', 'MLSD'],
  'draft-somers-ftp-mfxx': ['MFMT'],
} as const;

for (const [source, verbs] of Object.entries(wanted)) {
  test(`${source}: every command is known, and none is answered 500`, () => {
    for (const verb of verbs) {
      expect(commands.has(verb), verb).toBe(true);
      const talk = Talk.loggedIn();
      talk.say(`${verb} x`);
      expect(talk.codes, verb).not.toContain(500);
    }
  });
}

/** Known and not done: each for a reason that SPEC.md or the command itself gives. */
test('what is known and lawfully not done is this and no more', () => {
  const refused = Object.values(wanted)
    .flat()
    .filter((verb) => {
      const talk = Talk.loggedIn();
      talk.say(`${verb} x`);
      return talk.codes.includes(502);
    });
  expect(refused).toEqual(['HELP', 'REIN', 'SMNT']);
});

test('HELP tells all commands, those of SITE, and whether one is known', () => {
  const talk = Talk.loggedIn();
  talk.say('HELP', 'HELP site', 'HELP stor', 'HELP xyzzy');
  expect(talk.codes).toEqual([214, 214, 214, 502]);
  expect(talk.said).toContain(' CHMOD HELP UMASK UTIME\r\n');
});

test('6.5 REST in TYPE A counts bytes as in TYPE I, since no TYPE changes one', () => {
  const offsets: unknown[] = [];
  const talk = Talk.loggedIn({
    ...easyScript,
    open: ({ request }) => {
      offsets.push('how' in request ? request.how.at : null);
      return { ok: true, value: { offsetBytes: 5 } };
    },
  });
  for (const type of ['TYPE A', 'TYPE I']) {
    talk.say(type, 'PASV');
    talk.feed({ kind: 'data-connected' });
    talk.say('REST 5', 'STOR f');
    talk.answer({ end: 'closed', bytes: 1 });
  }
  expect(offsets).toEqual([{ offsetBytes: 5 }, { offsetBytes: 5 }]);
});
