import { createHash } from 'node:crypto';
import { SetsideError } from '../../base/index.ts';
import { isWholeBlob, type KeyKind, keyKindOf, rsaBitsIn } from './core/key-blob.ts';

/** A key by which a camera may come in, as people compare it. */
export interface CameraKey {
  /** `none` where what is written in the file of the cameras is no key: it lets nobody in and can be dropped. */
  readonly kind: KeyKind | 'none';
  /** As `ssh-keygen -l` prints it: `SHA256:` and the unpadded base64 of the digest. */
  readonly fingerprint: string;
  /** What stands behind the key, often whose it is. */
  readonly comment: string;
}

/** NIST SP 800-131A revision 2, table 2 (from memory): RSA below 2048 bits is disallowed for signatures. */
export const rsaBitsMin = 2048;
/** OpenSSH reads no longer ones (SSHBUF_MAX_BIGNUM of its sshbuf.h, from memory). */
export const rsaBitsMax = 16_384;
/** Longer than the line of any key that is taken. */
export const keyLineMax = 8_000;
const commentMax = 200;

/** Type and base64 of a line of `authorized_keys` (sshd(8)), without what may stand before and after them. */
export function publicKeyIn(line: string): string {
  return /(?:^|\s)((?:ssh|ecdsa|sk)-[\w@.-]+ [A-Za-z0-9+/=]+)(?:\s|$)/.exec(line)?.[1] ?? '';
}

/** Whether a text is, or holds, a private key: PEM (RFC 7468) and OpenSSH's own form say so in their first line. */
export function isPrivateKey(text: string): boolean {
  return /-----BEGIN [A-Z ]*PRIVATE KEY-----/.test(text);
}

/**
 * One public key as OpenSSH writes it in a `.pub` file, made sure of: type, base64 and comment.
 * Throws `private-key`, `bad-key`, `unknown-key-kind`, `weak-key`; no message repeats what was given.
 */
export function cleanKeyLine(text: string): string {
  const line = text.trim();
  if (isPrivateKey(line)) throw privateKeyGiven();
  const key = publicKeyIn(line);
  const [type = '', base64 = ''] = key.split(' ');
  if (key === '' || line.length > keyLineMax || /[\r\n]/.test(line)) throw noKey();
  if (!line.startsWith(key)) {
    throw badKey(
      'words stand before the key',
      'Give the key alone; --allow says where a camera may come from.',
    );
  }
  const kind = keyKindOf(type);
  if (kind === null) throw unknownKind(type);
  const blob = Buffer.from(base64, 'base64');
  // Node reads base64 generously: what does not come out again was not written by a program that makes keys.
  if (blob.toString('base64') !== base64 || !isWholeBlob(type, blob)) {
    throw badKey('the key is damaged or cut short', 'Copy the whole line of the .pub file.');
  }
  if (kind === 'rsa') checkRsa(rsaBitsIn(blob));
  const comment = commentOf(line, key);
  return comment === '' ? key : `${key} ${comment}`;
}

/** A stored line as people compare it. */
export function cameraKeyOf(line: string): CameraKey {
  const key = publicKeyIn(line);
  const [type = '', base64 = ''] = key.split(' ');
  const kind = keyKindOf(type);
  if (kind === null) return { kind: 'none', fingerprint: fingerprintOf(Buffer.from(line)), comment: '' };
  return { kind, fingerprint: fingerprintOf(Buffer.from(base64, 'base64')), comment: commentOf(line, key) };
}

/** The lines with these keys dropped and those added; a key that is there already is not there twice. */
export function changedKeys(
  lines: readonly string[],
  { drop = [], add = [] }: { readonly drop?: readonly string[]; readonly add?: readonly string[] },
): readonly string[] {
  const unknown = drop.find((print) => !lines.some((line) => isKey(line, print)));
  if (unknown !== undefined) throw noSuchKey(unknown, lines);
  const kept = lines.filter((line) => !drop.some((print) => isKey(line, print)));
  const fresh = new Map(add.map(cleanKeyLine).map((line) => [publicKeyIn(line), line]));
  return [...kept.filter((line) => !fresh.has(publicKeyIn(line))), ...fresh.values()];
}

/** With and without `SHA256:` in front, since people copy both. */
function isKey(line: string, print: string): boolean {
  const { fingerprint } = cameraKeyOf(line);
  return fingerprint === print.trim() || fingerprint === `SHA256:${print.trim()}`;
}

function fingerprintOf(blob: Buffer): string {
  return `SHA256:${createHash('sha256').update(blob).digest('base64').replace(/=+$/, '')}`;
}

/** What stands behind the key, fit to be shown in a terminal. */
function commentOf(line: string, key: string): string {
  const behind = line.slice(line.indexOf(key) + key.length);
  return behind
    .replace(/[\p{Cc}\p{Cf}]+/gu, ' ')
    .trim()
    .slice(0, commentMax);
}

function checkRsa(bits: number): void {
  if (bits >= rsaBitsMin && bits <= rsaBitsMax) return;
  throw new SetsideError(
    'weak-key',
    `the RSA key has ${bits} bits; ${rsaBitsMin} to ${rsaBitsMax} are taken`,
    {
      cure: 'Make a new one: ssh-keygen -t ed25519.',
    },
  );
}

/** `file`: where it was read, so that the sentence can say which to give instead. */
export function privateKeyGiven(file?: string): SetsideError {
  const given = file === undefined ? 'that is a private key' : `${file} holds a private key`;
  const instead = file === undefined ? 'the file that ends in .pub' : `${file}.pub`;
  return new SetsideError('private-key', `${given}, which nobody but its owner should have`, {
    cure: `Give the public half: ${instead}.`,
  });
}

export function noKey(): SetsideError {
  return badKey(
    'that is no public key as OpenSSH writes it',
    'Give a .pub file, or its one line: ssh-ed25519 AAAA… name.',
  );
}

function badKey(message: string, cure: string): SetsideError {
  return new SetsideError('bad-key', message, { cure });
}

function unknownKind(type: string): SetsideError {
  return new SetsideError('unknown-key-kind', `a key of kind ${type} cannot be checked here`, {
    cure: 'Use ed25519, ECDSA (nistp256, nistp384, nistp521) or RSA.',
  });
}

function noSuchKey(print: string, lines: readonly string[]): SetsideError {
  const known = lines.map((line) => cameraKeyOf(line).fingerprint).join(', ');
  return new SetsideError('no-key', `there is no key ${print.slice(0, 100)}`, {
    cure: known === '' ? 'This camera has no keys.' : `This camera has ${known}.`,
  });
}
