import type { Algorithms } from 'ssh2';
import { type HostKeyKind, printHostKey } from './host-keys.ts';

/**
 * What is offered to clients. Left out by default: everything with SHA-1, CBC ciphers (RFC 4344 section 1 tells why
 * not), groups below 2048 bits, very large groups (their cost is a stranger's weapon), and compression, which lets a
 * few bytes become many.
 */
const strong: Algorithms = {
  kex: [
    'curve25519-sha256',
    'curve25519-sha256@libssh.org',
    'ecdh-sha2-nistp256',
    'ecdh-sha2-nistp384',
    'ecdh-sha2-nistp521',
    'diffie-hellman-group16-sha512',
    'diffie-hellman-group14-sha256',
  ],
  cipher: ['aes128-gcm@openssh.com', 'aes256-gcm@openssh.com', 'aes128-ctr', 'aes192-ctr', 'aes256-ctr'],
  hmac: ['hmac-sha2-256-etm@openssh.com', 'hmac-sha2-512-etm@openssh.com', 'hmac-sha2-256', 'hmac-sha2-512'],
  compress: ['none'],
  serverHostKey: ['ssh-ed25519', 'ecdsa-sha2-nistp256'],
};

/** What a client of before about 2012 speaks: the methods RFC 4253 required, behind the strong ones. */
const forOldCameras: Algorithms = {
  ...strong,
  kex: [...listed(strong.kex), 'diffie-hellman-group14-sha1'],
  cipher: [...listed(strong.cipher), 'aes256-cbc', 'aes128-cbc'],
  hmac: [...listed(strong.hmac), 'hmac-sha1'],
  serverHostKey: [...listed(strong.serverHostKey), 'rsa-sha2-512', 'rsa-sha2-256', 'ssh-rsa'],
};

/**
 * The algorithms, and those of the host keys that go with them. ssh2 offers an RSA key with SHA-1 signatures too,
 * whatever it is told, so that key is shown to old cameras only.
 */
export function algorithmsFor(
  hostKeys: readonly string[],
  oldCameras: boolean,
): { readonly algorithms: Algorithms; readonly hostKeys: string[] } {
  const kinds: readonly HostKeyKind[] = oldCameras ? ['ed25519', 'ecdsa', 'rsa'] : ['ed25519', 'ecdsa'];
  const shown = kinds.flatMap((kind) => hostKeys.filter((key) => printHostKey(key)?.kind === kind));
  return { algorithms: oldCameras ? forOldCameras : strong, hostKeys: shown };
}

function listed<Name>(
  names: Name[] | Record<'append' | 'prepend' | 'remove', Name | Name[]> | undefined,
): Name[] {
  return Array.isArray(names) ? names : [];
}
