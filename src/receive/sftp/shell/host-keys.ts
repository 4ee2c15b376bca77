import { createHash } from 'node:crypto';
import ssh2 from 'ssh2';
import { makeEd25519Key } from './openssh-key.ts';

/**
 * ed25519 (RFC 8709) for whoever knows it, ECDSA on P-256 (RFC 5656) for the rest, and RSA of 3072 bits, which only
 * old cameras need: see {@link algorithmsFor}.
 */
export const hostKeyKinds = ['ed25519', 'ecdsa', 'rsa'] as const;
export type HostKeyKind = (typeof hostKeyKinds)[number];

/** A host key as people compare it: what `ssh-keygen -l` prints of it. */
export interface HostKeyPrint {
  readonly kind: HostKeyKind;
  /** `SHA256:` and the unpadded base64 of the digest of the public key. */
  readonly fingerprint: string;
}

/** NIST SP 800-57 part 1, table 2: 3072 bits of RSA are as strong as P-256. */
const rsaBits = 3072;

/** Makes a private key, in OpenSSH's own form without a passphrase: whoever may read the file is the station. */
export function makeHostKey(kind: HostKeyKind): string {
  switch (kind) {
    case 'ed25519':
      return makeEd25519Key('setside');
    case 'ecdsa':
      return ssh2.utils.generateKeyPairSync('ecdsa', { bits: 256, comment: 'setside' }).private;
    case 'rsa':
      return ssh2.utils.generateKeyPairSync('rsa', { bits: rsaBits, comment: 'setside' }).private;
  }
}

/** What `ssh-keygen -l` says of a private key; null where the text holds none that can be used. */
export function printHostKey(privateKey: string): HostKeyPrint | null {
  const key = ssh2.utils.parseKey(privateKey);
  if (key instanceof Error || !key.isPrivateKey()) return null;
  const kind = kindOf(key.type);
  if (kind === null) return null;
  const digest = createHash('sha256').update(key.getPublicSSH()).digest('base64');
  return { kind, fingerprint: `SHA256:${digest.replace(/=+$/, '')}` };
}

function kindOf(type: string): HostKeyKind | null {
  if (type === 'ssh-ed25519') return 'ed25519';
  if (type === 'ssh-rsa') return 'rsa';
  return type.startsWith('ecdsa-sha2-') ? 'ecdsa' : null;
}
