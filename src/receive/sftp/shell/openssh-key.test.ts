import ssh2 from 'ssh2';
import { expect, test } from 'vitest';
import { makeHostKey, printHostKey } from './host-keys.ts';
import { openSshPrivateKey } from './openssh-key.ts';

/** RFC 8032 section 7.1, test 1. */
const rfc8032 = {
  seed: Buffer.from('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60', 'hex'),
  publicKey: Buffer.from('d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a', 'hex'),
};

test('the two halves of RFC 8032, test 1, are read back by ssh2 and sign as they should', () => {
  const key = parsed(openSshPrivateKey(rfc8032.seed, rfc8032.publicKey, 'a comment'));
  expect(key.comment).toBe('a comment');
  expect(key.getPublicSSH().subarray(-32)).toEqual(rfc8032.publicKey);
  // The signature of the empty message, same test.
  expect(Buffer.from(key.sign(Buffer.alloc(0))).toString('hex')).toBe(
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155' +
      '5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  );
});

test('halves that begin with zero bytes stay whole', () => {
  const short = Buffer.concat([Buffer.alloc(2), Buffer.alloc(30, 7)]);
  const key = parsed(openSshPrivateKey(rfc8032.seed, short, ''));
  expect(key.getPublicSSH().subarray(-32)).toEqual(short);
});

test('a key file whose public half is a byte short, as ssh2 makes one in 256, holds no key', () => {
  const short = openSshPrivateKey(rfc8032.seed, rfc8032.publicKey.subarray(1), '');
  expect(printHostKey(short)).toBeNull();
  expect(printHostKey(makeHostKey('ed25519'))?.kind).toBe('ed25519');
});

function parsed(text: string): ssh2.ParsedKey {
  const key = ssh2.utils.parseKey(text);
  if (key instanceof Error) throw key;
  return key;
}
