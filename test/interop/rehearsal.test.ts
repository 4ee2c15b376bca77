import { createServer } from 'node:net';
import ssh2 from 'ssh2';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { type RehearsalOptions, type RehearsalReport, rehearse } from '../../src/stand-in/index.ts';
import { sentence } from '../../src/words/index.ts';
import { hasProgram, runProgram } from '../flow/clients.ts';
import { type Hall, openHall } from './ftp-hall.ts';
import { type TestAuthority, testAuthority } from './ftps-client.ts';
import { hostKeys, openSftpHall } from './sftp-hall.ts';

/** A rehearsal against the doors themselves: what it says of each way in, and where it ends when a setting is wrong. */
let trusted: TestAuthority;
const closing: (() => Promise<unknown>)[] = [];
beforeAll(async () => {
  trusted = await testAuthority();
});
afterAll(() => trusted.remove());
afterEach(async () => {
  await Promise.all(closing.splice(0).map((close) => close()));
});

async function hallWith(options: Parameters<typeof openHall>[0] = {}): Promise<Hall> {
  const hall = await openHall(options);
  closing.push(() => hall.door.close());
  return hall;
}

const walk = (port: number, change: Partial<RehearsalOptions> = {}): Promise<RehearsalReport> =>
  rehearse({
    ...{ host: '127.0.0.1', port, user: 'camera', password: 'right', protocol: 'ftp' },
    ...{ secure: { how: 'no', ca: null }, hostKeys: [] },
    signal: new AbortController().signal,
    onStep: () => {},
    ...change,
  });
const told = ({ steps }: RehearsalReport): string[] =>
  steps.map(({ finding }) => finding.code.slice('rehearsal.'.length));

test('with the right settings each step is told, and the picture that was sent is kept', async () => {
  const { door, folder } = await hallWith();
  const report = await walk(door.port);
  expect(told(report)).toEqual(['reached', 'greeted', 'logged-in', 'data-open', 'sent']);
  expect(report.ok).toBe(true);
  expect(report.differences.map(({ code }) => code)).toEqual(['rehearsal.own-computer']);
  const sent = report.steps.at(-1)?.finding.args.bytes;
  const kept = folder.read('/REHEARSE.JPG');
  expect(kept?.length).toBe(sent);
  // SOI and APP0 or the like: ITU-T T.81 annex B.
  expect([...(kept ?? []).slice(0, 3)]).toEqual([0xff, 0xd8, 0xff]);
});

test('a wrong password ends it at the log-in, and what to compare is said', async () => {
  const { door } = await hallWith();
  const report = await walk(door.port, { password: 'wrong' });
  expect(told(report)).toEqual(['reached', 'greeted', 'log-in-refused']);
  expect(report.ok).toBe(false);
  expect(sentence(report.steps[2]?.finding ?? { code: '', args: {} })).toContain(
    'compare them with the camera sheet',
  );
});

test('a port where nobody listens ends it at once', async () => {
  const server = createServer().listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  await new Promise((resolve) => server.close(resolve));
  expect(told(await walk(port))).toEqual(['refused']);
});

test('something that never greets is not taken for a station', async () => {
  const server = createServer((socket) => socket.on('error', () => {})).listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  closing.push(async () => server.close());
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  expect(told(await walk(port, { stepMs: 2000 }))).toEqual(['reached', 'not-ftp']);
});

test('passive ports that are shut end it behind the log-in', async () => {
  // A station whose passive port listens nowhere: 229 after RFC 2428, 227 after RFC 959.
  const server = createServer((socket) => {
    socket.on('error', () => {});
    socket.write('220 ready\r\n');
    socket.on('data', (bytes) => {
      const verb = bytes.toString('latin1').slice(0, 4).trim();
      const replies: Record<string, string> = {
        USER: '331 password',
        PASS: '230 in',
        EPSV: '229 go (|||1|)',
        PASV: '227 go (10,9,8,7,0,1)',
      };
      socket.write(`${replies[verb] ?? '200 fine'}\r\n`);
    });
  }).listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  closing.push(async () => server.close());
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  const report = await walk(port);
  expect(told(report)).toEqual(['reached', 'greeted', 'logged-in', 'data-shut']);
  expect(report.differences).toContainEqual({
    code: 'rehearsal.told-elsewhere',
    args: { told: '10.9.8.7', remote: '127.0.0.1' },
  });
});

test.each(['explicit', 'implicit'] as const)(
  'by FTPS, %s: with the root certificate it is open, without it is not',
  async (how) => {
    const { door } = await hallWith({ tls: { identity: trusted.authority, start: how } });
    const ca = trusted.authority.root.pem;
    const report = await walk(door.port, { secure: { how, ca } });
    expect(told(report)).toEqual(['reached', 'greeted', 'secured', 'logged-in', 'data-open', 'sent']);
    expect(String(report.steps[2]?.finding.args.version)).toMatch(/^TLSv1\.[23]$/);
    const without = await walk(door.port, { secure: { how, ca: null } });
    expect(told(without).at(-1)).toBe('untrusted');
  },
);

test('explicit FTPS asked of a station without TLS is told so', async () => {
  const { door } = await hallWith();
  expect(told(await walk(door.port, { secure: { how: 'explicit', ca: null } })).at(-1)).toBe('no-tls');
});

test('by SFTP one connection does it all; asked of the FTP door it is told that this is another', async () => {
  const hall = await openSftpHall();
  closing.push(() => hall.door.close());
  const report = await walk(hall.door.port, { protocol: 'sftp' });
  expect(told(report)).toEqual(['reached', 'logged-in', 'sent']);
  expect(told(await walk(hall.door.port, { protocol: 'sftp', password: 'wrong' })).at(-1)).toBe(
    'log-in-refused',
  );
  const { door } = await hallWith();
  expect(told(await walk(door.port, { protocol: 'sftp', stepMs: 3000 })).at(-1)).toBe('not-sftp');
});

test.skipIf(!hasProgram('ssh-keygen'))(
  'the host key is told; given it is compared, and with another no password is sent',
  async () => {
    const hall = await openSftpHall();
    closing.push(() => hall.door.close());
    const open = await walk(hall.door.port, { protocol: 'sftp' });
    const shown = open.differences.find(({ code }) => code === 'rehearsal.host-key')?.args.hostKey;
    const onSheet = await Promise.all(hostKeys.map(fingerprintByOpenSsh));
    expect(onSheet).toContain(shown);
    const given = await walk(hall.door.port, { protocol: 'sftp', hostKeys: onSheet });
    expect(told(given)).toEqual(['reached', 'logged-in-known', 'sent']);
    expect(given.differences.map(({ code }) => code)).not.toContain('rehearsal.host-key');
    const before = hall.codes().length;
    const wrong = await walk(hall.door.port, { protocol: 'sftp', hostKeys: [`SHA256:${'a'.repeat(43)}`] });
    expect(told(wrong)).toEqual(['reached', 'other-host-key']);
    expect(sentence(wrong.steps[1]?.finding ?? { code: '', args: {} })).toContain(String(shown));
    expect(hall.codes().slice(before)).not.toContain('line.logged-in');
  },
);

test('what is called off rejects with the reason', async () => {
  const { door } = await hallWith();
  const stop = new AbortController();
  stop.abort(new Error('stopped'));
  await expect(walk(door.port, { signal: stop.signal })).rejects.toThrow('stopped');
});

/** What OpenSSH says of the same key. */
async function fingerprintByOpenSsh(hostKey: string): Promise<string> {
  const key = ssh2.utils.parseKey(hostKey);
  if (key instanceof Error || Array.isArray(key)) throw new Error('expected one key');
  const line = `${key.type} ${key.getPublicSSH().toString('base64')}\n`;
  const { stdout } = await runProgram('ssh-keygen', ['-l', '-f', '-'], { input: line });
  return /SHA256:\S+/.exec(stdout)?.[0] ?? '';
}
