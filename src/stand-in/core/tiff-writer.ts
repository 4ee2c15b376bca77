/**
 * TIFF 6.0 image file directories, little endian. Only what the raw writer needs: every directory is placed by its
 * caller, values longer than four bytes follow their directory on even offsets.
 */

export type TagType = 'byte' | 'ascii' | 'short' | 'long' | 'rational' | 'undefined' | 'srational' | 'double';

/** One field. Rationals are flat pairs: numerator, denominator, numerator, … */
export interface Tag {
  readonly id: number;
  readonly type: TagType;
  readonly values: readonly number[];
}

interface TypeFacts {
  /** TIFF 6.0 page 15. */
  readonly code: number;
  readonly bytes: number;
  /** How many of `values` make one value of the type. */
  readonly parts: number;
}

const types: Readonly<Record<TagType, TypeFacts>> = {
  byte: { code: 1, bytes: 1, parts: 1 },
  ascii: { code: 2, bytes: 1, parts: 1 },
  short: { code: 3, bytes: 2, parts: 1 },
  long: { code: 4, bytes: 4, parts: 1 },
  rational: { code: 5, bytes: 8, parts: 2 },
  undefined: { code: 7, bytes: 1, parts: 1 },
  srational: { code: 10, bytes: 8, parts: 2 },
  double: { code: 12, bytes: 8, parts: 1 },
};

/** A text field: 7-bit characters and the closing NUL that TIFF asks for. */
export function asciiTag(id: number, text: string): Tag {
  const codes = [...text].map((character) => character.charCodeAt(0) & 0x7f);
  return { id, type: 'ascii', values: [...codes, 0] };
}

const fieldOf =
  (type: TagType) =>
  (id: number, ...values: number[]): Tag => ({ id, type, values });

export const shortTag = fieldOf('short');
export const longTag = fieldOf('long');
export const byteTag = fieldOf('byte');
export const rationalTag = fieldOf('rational');
export const srationalTag = fieldOf('srational');
export const opaqueTag = fieldOf('undefined');

/** A real number as a rational with the given denominator. */
export function rationals(values: readonly number[], denominator: number): number[] {
  return values.flatMap((value) => [Math.round(value * denominator), denominator]);
}

/** Bytes a directory takes with the values that follow it; always even. */
export function directoryBytes(tags: readonly Tag[]): number {
  return tags.reduce((sum, tag) => sum + valueBytesOutside(tag), 2 + 12 * tags.length + 4);
}

/**
 * Writes one directory at `offset` of `out`, fields in ascending order as TIFF asks. Offsets count from the beginning
 * of `out`, which must hold {@link directoryBytes} bytes from `offset`. `next`: where the next directory lies, 0 for none.
 */
export function writeDirectory(out: DataView, offset: number, tags: readonly Tag[], next = 0): void {
  const sorted = [...tags].sort((a, b) => a.id - b.id);
  out.setUint16(offset, sorted.length, true);
  let field = offset + 2;
  let outside = field + 12 * sorted.length + 4;
  for (const tag of sorted) {
    out.setUint16(field, tag.id, true);
    out.setUint16(field + 2, types[tag.type].code, true);
    out.setUint32(field + 4, tag.values.length / types[tag.type].parts, true);
    const outsideBytes = valueBytesOutside(tag);
    if (outsideBytes === 0) {
      writeValues(out, field + 8, tag);
    } else {
      out.setUint32(field + 8, outside, true);
      writeValues(out, outside, tag);
      outside += outsideBytes;
    }
    field += 12;
  }
  out.setUint32(field, next, true);
}

function valueBytesOutside(tag: Tag): number {
  const facts = types[tag.type];
  const bytes = (tag.values.length / facts.parts) * facts.bytes;
  return bytes <= 4 ? 0 : bytes + (bytes % 2);
}

function writeValues(out: DataView, offset: number, tag: Tag): void {
  const { bytes, parts } = types[tag.type];
  const step = bytes / parts;
  tag.values.forEach((value, index) => {
    const at = offset + index * step;
    if (tag.type === 'double') out.setFloat64(at, value, true);
    else if (tag.type === 'srational') out.setInt32(at, value, true);
    else if (step === 4) out.setUint32(at, value, true);
    else if (step === 2) out.setUint16(at, value, true);
    else out.setUint8(at, value);
  });
}
