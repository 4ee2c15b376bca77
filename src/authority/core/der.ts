/** The few DER forms (X.690 section 8, 10) that a name constraint is made of. */

/** Tag, length, content. `tag` is the whole identifier octet; numbers above 30 do not occur here. */
export function der(tag: number, ...contents: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const size = contents.reduce((sum, content) => sum + content.length, 0);
  const length = lengthOctets(size);
  const out = new Uint8Array(1 + length.length + size);
  out[0] = tag;
  out.set(length, 1);
  let at = 1 + length.length;
  for (const content of contents) {
    out.set(content, at);
    at += content.length;
  }
  return out;
}

export const sequenceTag = 0x30;

/** Identifier octet of `[number] IMPLICIT`, primitive or constructed. */
export function contextTag(number: number, form: 'primitive' | 'constructed'): number {
  return 0x80 | (form === 'constructed' ? 0x20 : 0) | number;
}

function lengthOctets(size: number): Uint8Array {
  if (size < 0x80) return Uint8Array.of(size);
  if (size < 0x100) return Uint8Array.of(0x81, size);
  return Uint8Array.of(0x82, size >> 8, size & 0xff);
}
