import { execFileSync, spawnSync } from 'node:child_process';
import { createHash, randomBytes, X509Certificate } from 'node:crypto';
import { chmod, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { rootLifetime, serverLifetime } from './core/lifetimes.ts';
import { parseHeld } from './held.ts';
import { type Authority, openAuthority, type ServerNames } from './index.ts';
import { issueServer } from './issue.ts';

const dayMs = 86_400_000;
/** OpenSSL judges by this computer's clock, so the tests begin there. */
const startMs = Date.now();
const names: ServerNames = {
  addresses: ['192.168.7.20', '127.0.0.1', '::1', 'fe80::1%eth0'],
  hosts: ['set.local'],
};

let folder = '';
let nowMs = startMs;

beforeEach(async () => {
  folder = join(await mkdtemp(join(tmpdir(), 'setside-authority-')), 'keys');
  nowMs = startMs;
});
afterEach(() => rm(join(folder, '..'), { recursive: true, force: true }));

const open = (wanted: ServerNames = names): Promise<Authority> =>
  openAuthority({ folder, now: () => nowMs, random: randomBytes }, wanted);

/** `openssl verify` of the server's certificate as it lies there: what it says. */
async function verified(...more: readonly string[]): Promise<string> {
  await writeFile(join(folder, 'root.pem'), (await open()).root.pem);
  const { stdout, stderr } = spawnSync(
    'openssl',
    ['verify', ...more, '-CAfile', join(folder, 'root.pem'), join(folder, 'server.pem')],
    { encoding: 'utf8' },
  );
  return stdout + stderr;
}

function described(file: string): string {
  return execFileSync('openssl', ['x509', '-noout', '-text', '-in', join(folder, file)], {
    encoding: 'utf8',
  });
}

test('OpenSSL finds the chain sound, for each of the names and for no other', async () => {
  await open();
  expect(await verified('-purpose', 'sslserver', '-verify_ip', '192.168.7.20')).toContain(': OK');
  expect(await verified('-verify_ip', 'fe80::1')).toContain(': OK');
  expect(await verified('-verify_hostname', 'set.local')).toContain(': OK');
  expect(await verified('-verify_ip', '192.168.7.21')).toContain('IP address mismatch');
});

test('keys lie in a folder and files for this user only, and rights that were left wider are taken back', async () => {
  const modes = async (): Promise<string[]> =>
    Promise.all(
      ['.', 'authority.pem', 'server.pem'].map(async (name) =>
        ((await stat(join(folder, name))).mode & 0o777).toString(8),
      ),
    );
  await open();
  expect(await modes()).toEqual(['700', '600', '600']);
  await chmod(folder, 0o755);
  await chmod(join(folder, 'authority.pem'), 0o644);
  await chmod(join(folder, 'server.pem'), 0o644);
  await open();
  expect(await modes()).toEqual(['700', '600', '600']);
  expect((await readdir(folder)).sort()).toEqual(['authority.pem', 'server.pem']);
});

test('root and server are RSA 2048 with SHA-256, and the root may sign servers only', async () => {
  await open();
  const root = described('authority.pem');
  for (const fact of [
    'Public-Key: (2048 bit)',
    'Signature Algorithm: sha256WithRSAEncryption',
    'CA:TRUE, pathlen:0',
    'Certificate Sign, CRL Sign',
    'IP:192.168.0.0/255.255.0.0',
    'DNS:home.arpa',
  ]) {
    expect(root).toContain(fact);
  }
  const server = described('server.pem');
  for (const fact of [
    'Public-Key: (2048 bit)',
    'Signature Algorithm: sha256WithRSAEncryption',
    'CA:FALSE',
    'Digital Signature, Key Encipherment',
    'TLS Web Server Authentication',
    'DNS:set.local, IP Address:127.0.0.1, IP Address:192.168.7.20',
  ]) {
    expect(server).toContain(fact);
  }
});

test('names are invented and differ, and so do serial numbers, from station to station', async () => {
  const first = await open();
  await rm(folder, { recursive: true });
  const second = await open();
  expect(first.root.name).toMatch(/^Setside station [0-9a-f]{6} authority$/);
  expect(second.root.name).not.toBe(first.root.name);
  const serials = [first, second].flatMap(({ root, credentials }) => [
    new X509Certificate(root.pem).serialNumber,
    new X509Certificate(credentials.chain).serialNumber,
  ]);
  expect(new Set(serials).size).toBe(4);
  for (const serial of serials) expect(serial).toMatch(/^[4-7][0-9A-F]{31}$/);
});

test('the fingerprint is the SHA-256 of the DER, and the DER is the PEM', async () => {
  const { root } = await open();
  const digest = createHash('sha256').update(root.der).digest('hex').toUpperCase();
  expect(root.fingerprint.replaceAll(':', '')).toBe(digest);
  expect(Buffer.from(root.pem.replace(/-----[^-]+-----/g, ''), 'base64').equals(root.der)).toBe(true);
});

test('a later start finds the same root and the same server certificate', async () => {
  const first = await open();
  nowMs += 30 * dayMs;
  const later = await open();
  expect([first.isNew, later.isNew]).toEqual([true, false]);
  expect(later.root).toEqual(first.root);
  expect(later.credentials).toEqual(first.credentials);
});

test('both certificates begin two days back, for a camera whose clock is behind', async () => {
  const { root, credentials } = await open();
  for (const pem of [root.pem, credentials.chain]) {
    const begins = Date.parse(new X509Certificate(pem).validFrom);
    expect(Math.abs(begins - (startMs - 2 * dayMs))).toBeLessThanOrEqual(1000);
  }
});

test('an address that comes is put into a new certificate, one that goes changes nothing', async () => {
  const authority = await open();
  const before = authority.credentials;
  const fewer = { addresses: ['127.0.0.1'], hosts: [] };
  expect(await authority.refresh(fewer)).toBe(false);
  expect(authority.credentials).toBe(before);
  const moved = { addresses: ['127.0.0.1', '10.3.4.5'], hosts: ['set.local'] };
  expect(await authority.refresh(moved)).toBe(true);
  expect(await authority.refresh(moved)).toBe(false);
  expect(new X509Certificate(authority.credentials.chain).subjectAltName).toContain('IP Address:10.3.4.5');
  expect(new X509Certificate(authority.credentials.chain).serialNumber).not.toBe(
    new X509Certificate(before.chain).serialNumber,
  );
});

test('names that one certificate held are asked of the next one anew', async () => {
  const authority = await open();
  const here = { addresses: ['127.0.0.1', '10.9.9.9'], hosts: [] };
  const there = { addresses: ['127.0.0.1', '10.3.4.5'], hosts: [] };
  expect(await authority.refresh(here)).toBe(true);
  expect(await authority.refresh(here)).toBe(false);
  expect(await authority.refresh(there)).toBe(true);
  expect(await authority.refresh(here)).toBe(true);
});

test('the server certificate is renewed two months before its end, not earlier', async () => {
  const authority = await open();
  nowMs = authority.credentials.notAfterMs - 60 * dayMs - 1000;
  expect(await authority.refresh(names)).toBe(false);
  nowMs += 1000;
  expect(await authority.refresh(names)).toBe(true);
  expect(authority.credentials.notAfterMs).toBeGreaterThan(nowMs + 396 * dayMs);
});

test('a root near its end gives way to a new one at the next start', async () => {
  const { root } = await open();
  nowMs = root.notAfterMs - 60 * dayMs;
  const later = await open();
  expect(later.isNew).toBe(true);
  expect(later.root.fingerprint).not.toBe(root.fingerprint);
  const server = new X509Certificate(later.credentials.chain);
  expect(server.verify(new X509Certificate(later.root.pem).publicKey)).toBe(true);
});

test('a root made while the clock was ahead gives way once the clock is right', async () => {
  nowMs = startMs + 400 * dayMs;
  await open();
  nowMs = startMs;
  expect((await open()).isNew).toBe(true);
});

test('a root that cannot be read is refused and left as it is', async () => {
  await open();
  const file = join(folder, 'authority.pem');
  const text = await readFile(file, 'utf8');
  await writeFile(file, text.slice(0, -60));
  await expect(open()).rejects.toMatchObject({ code: 'authority-unreadable' });
  expect(await readFile(file, 'utf8')).toBe(text.slice(0, -60));
});

test('a key that is not the certificate’s is refused', async () => {
  await open();
  const file = join(folder, 'authority.pem');
  const [root, server] = await Promise.all([
    readFile(file, 'utf8'),
    readFile(join(folder, 'server.pem'), 'utf8'),
  ]);
  const key = server.slice(0, server.indexOf('-----BEGIN CERT'));
  await writeFile(file, key + root.slice(root.indexOf('-----BEGIN CERT')));
  await expect(open()).rejects.toMatchObject({ code: 'authority-unreadable' });
});

test('a server certificate that cannot be read, or is of another root, is made anew', async () => {
  const { root } = await open();
  await writeFile(join(folder, 'server.pem'), 'nothing');
  const again = await open();
  expect(again.root).toEqual(root);
  const foreign = await readFile(join(folder, 'server.pem'), 'utf8');
  await rm(join(folder, 'authority.pem'));
  const other = await open();
  expect(other.isNew).toBe(true);
  expect(await readFile(join(folder, 'server.pem'), 'utf8')).not.toBe(foreign);
});

test('names of the internet are left out', async () => {
  const { credentials } = await open({
    addresses: ['203.0.113.5', '127.0.0.1', '2001:db8::1', '172.32.0.1', '172.31.0.1'],
    hosts: ['set.example.org', 'local', 'notlocal', 'a.home.arpa', '*.local', 'localhost'],
  });
  const held = new X509Certificate(credentials.chain).subjectAltName;
  expect(held).toBe('DNS:a.home.arpa, DNS:local, DNS:localhost, IP Address:127.0.0.1, IP Address:172.31.0.1');
});

test.each([
  [{ addresses: ['203.0.113.5'], hosts: [] }],
  [{ addresses: ['2001:db8::1'], hosts: [] }],
  [{ addresses: [], hosts: ['shop.example.org'] }],
])('whoever stole the root could not vouch for %j: OpenSSL refuses it', async (stolen) => {
  await open();
  const root = parseHeld(await readFile(join(folder, 'authority.pem'), 'utf8'));
  if (root === null) throw new Error('no root');
  const lifetime = serverLifetime(nowMs, rootLifetime(nowMs));
  const forged = await issueServer(root, stolen, { organisation: 'X', serial: randomBytes(16), lifetime });
  await writeFile(join(folder, 'forged.pem'), forged.certificate);
  await writeFile(join(folder, 'root.pem'), root.certificate);
  const { stderr } = spawnSync(
    'openssl',
    ['verify', '-CAfile', join(folder, 'root.pem'), join(folder, 'forged.pem')],
    { encoding: 'utf8' },
  );
  expect(stderr).toContain('permitted subtree violation');
});

test('a folder that cannot be written is said with its cure', async () => {
  await writeFile(folder, 'a file');
  await expect(open()).rejects.toMatchObject({ code: 'authority-unwritable' });
});

test('names that could not be written are not taken for held', async () => {
  const authority = await open();
  const before = authority.credentials;
  await rm(folder, { recursive: true });
  await writeFile(folder, 'a file');
  const moved = { addresses: ['127.0.0.1', '10.3.4.5'], hosts: [] };
  for (const _ of ['once', 'again'])
    await expect(authority.refresh(moved)).rejects.toMatchObject({ code: 'authority-unwritable' });
  expect(authority.credentials).toBe(before);
});
