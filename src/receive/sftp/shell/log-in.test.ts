import { createHash } from 'node:crypto';
import ssh2, { type ParsedKey, type PublicKeyAuthContext } from 'ssh2';
import { beforeEach, expect, test } from 'vitest';
import { AddressBook } from '../../core/address-book.ts';
import { MemoryFolder } from '../../testing/memory-folder.ts';
import { defaultSftpLimits } from '../core/limits.ts';
import { makeHostKey, printHostKey } from './host-keys.ts';
import { LogIn } from './log-in.ts';

const key = makeHostKey('ed25519');
const pair = { private: key, public: publicLine(key) };
const rsa = ssh2.utils.generateKeyPairSync('rsa', { bits: 2048 });
const blob = Buffer.from('what the client has to sign');
const camera = { name: 'Camera A', folder: new MemoryFolder() };

function publicLine(privateKey: string): string {
  return `ssh-ed25519 ${parsed(privateKey).getPublicSSH().toString('base64')}`;
}

function parsed(key: string): ParsedKey {
  const read = ssh2.utils.parseKey(key);
  if (read instanceof Error) throw read;
  return read;
}

/** An attempt as ssh2 hands it over; only what the log-in reads. */
function attempt(key: string, more: Partial<PublicKeyAuthContext> = {}): PublicKeyAuthContext {
  const { type: algo } = parsed(key);
  const data = parsed(key).getPublicSSH();
  // The rest is ssh2's own, which a log-in does not touch.
  return { method: 'publickey', username: 'camera', key: { algo, data }, ...more } as PublicKeyAuthContext;
}

let logIn: LogIn;
const open = (oldCameras = false): LogIn =>
  new LogIn(
    {
      limits: defaultSftpLimits,
      oldCameras,
      book: new AddressBook(defaultSftpLimits),
      keeper: { admit: async () => null, admitKey: async () => camera },
    },
    '192.0.2.7',
    () => {},
  );

beforeEach(() => {
  logIn = open();
});

test('11.10 a key that is known is asked to sign', async () => {
  expect(await logIn.weigh(attempt(pair.public))).toEqual({ kind: 'key-known' });
});

test('11.10 who signs with the private half comes in', async () => {
  const signature = parsed(pair.private).sign(blob);
  expect(await logIn.weigh(attempt(pair.public, { signature, blob }))).toEqual({ kind: 'admitted', camera });
});

test('11.10 a known public key alone lets nobody in: another signature, one of other words, none', async () => {
  const stranger = parsed(makeHostKey('ed25519'));
  const forged = [
    { signature: stranger.sign(blob), blob },
    { signature: parsed(pair.private).sign('other words'), blob },
    { signature: Buffer.alloc(64), blob },
    { signature: Buffer.alloc(0), blob },
    { signature: parsed(pair.private).sign(blob) },
  ];
  for (const more of forged) {
    expect(await logIn.weigh(attempt(pair.public, more))).toEqual({ kind: 'refused' });
  }
});

test('11.12 an RSA key signs with SHA-2, with SHA-1 for old cameras only', async () => {
  const sha2 = { signature: parsed(rsa.private).sign(blob, 'sha256'), blob, hashAlgo: 'sha256' };
  const sha1 = { signature: parsed(rsa.private).sign(blob), blob };
  expect(await logIn.weigh(attempt(rsa.public, sha2))).toMatchObject({ kind: 'admitted' });
  expect(await logIn.weigh(attempt(rsa.public, sha1))).toEqual({ kind: 'refused' });
  expect(await open(true).weigh(attempt(rsa.public, sha1))).toMatchObject({ kind: 'admitted' });
});

test('the fingerprint is the digest of the public key, without padding (RFC 4255 section 3.1.2 names the key’s form)', () => {
  const [, base64 = ''] = pair.public.split(' ');
  const digest = createHash('sha256').update(Buffer.from(base64, 'base64')).digest('base64');
  expect(printHostKey(pair.private)).toEqual({
    kind: 'ed25519',
    fingerprint: `SHA256:${digest.replace(/=+$/, '')}`,
  });
  expect([printHostKey(pair.public), printHostKey('no key')]).toEqual([null, null]);
});
