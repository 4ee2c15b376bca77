/** Kinds of public key that the SFTP door can check a signature of. */
export type KeyKind = 'ed25519' | 'ecdsa' | 'rsa';

/** Bytes of an uncompressed point of each curve: 4, then both coordinates (RFC 5656 section 3.1, SEC 1 section 2.3.3). */
const pointBytes: Readonly<Record<string, number>> = { nistp256: 65, nistp384: 97, nistp521: 133 };

/** Null for kinds that are not taken: DSA, certificates, and keys that live in a token (`sk-`). */
export function keyKindOf(type: string): KeyKind | null {
  if (type === 'ssh-ed25519') return 'ed25519';
  if (type === 'ssh-rsa') return 'rsa';
  return curveOf(type) === null ? null : 'ecdsa';
}

/** Whether the bytes behind a type are a key of that type, whole and with nothing behind it (RFC 4253, 5656, 8709). */
export function isWholeBlob(type: string, blob: Uint8Array): boolean {
  const fields = fieldsOf(blob);
  const [name, first, second, ...rest] = fields ?? [];
  if (name === undefined || new TextDecoder().decode(name) !== type || rest.length > 0) return false;
  const curve = curveOf(type);
  if (type === 'ssh-ed25519') return first?.length === 32 && second === undefined;
  if (curve !== null && first !== undefined && second !== undefined) {
    return (
      new TextDecoder().decode(first) === curve && second.length === pointBytes[curve] && second[0] === 4
    );
  }
  return type === 'ssh-rsa' && bitsOf(first) > 1 && bitsOf(second) > 0;
}

/** Bits of the modulus of an RSA key (RFC 4253 section 6.6: type, e, n). */
export function rsaBitsIn(blob: Uint8Array): number {
  return bitsOf(fieldsOf(blob)?.[2]);
}

function curveOf(type: string): string | null {
  const curve = type.startsWith('ecdsa-sha2-') ? type.slice('ecdsa-sha2-'.length) : '';
  return Object.hasOwn(pointBytes, curve) ? curve : null;
}

/** The strings one after another (RFC 4251 section 5: a length of four bytes, then the bytes); null where they do not fit. */
function fieldsOf(blob: Uint8Array): readonly Uint8Array[] | null {
  const view = new DataView(blob.buffer, blob.byteOffset, blob.byteLength);
  const fields: Uint8Array[] = [];
  let at = 0;
  while (at < blob.length) {
    if (at + 4 > blob.length) return null;
    const end = at + 4 + view.getUint32(at);
    if (end > blob.length) return null;
    fields.push(blob.subarray(at + 4, end));
    at = end;
  }
  return fields;
}

/** Bits of an mpint (RFC 4251 section 5): big-endian, a zero byte in front where the first bit would be a sign. */
function bitsOf(mpint: Uint8Array | undefined): number {
  const first = mpint?.findIndex((byte) => byte !== 0) ?? -1;
  if (mpint === undefined || first < 0) return 0;
  return (mpint.length - first) * 8 - Math.clz32(mpint[first] ?? 0) + 24;
}
