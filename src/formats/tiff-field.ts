import type { TiffStructure } from './tiff-structure.ts';

/** One entry of a directory: where its value is, not the value. */
export interface Field {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  /** Where the value is, within the structure: in the entry itself where it fits there. */
  readonly valueOffset: number;
}

/** Bytes of one value by type: TIFF 6.0 section 2, IFD of Technical Note 1, BigTIFF's three, UTF-8 of Exif 3.0. */
const typeBytes: ReadonlyMap<number, number> = new Map([
  [1, 1], // BYTE
  [2, 1], // ASCII
  [3, 2], // SHORT
  [4, 4], // LONG
  [5, 8], // RATIONAL
  [6, 1], // SBYTE
  [7, 1], // UNDEFINED
  [8, 2], // SSHORT
  [9, 4], // SLONG
  [10, 8], // SRATIONAL
  [11, 4], // FLOAT
  [12, 8], // DOUBLE
  [13, 4], // IFD
  [16, 8], // LONG8
  [17, 8], // SLONG8
  [18, 8], // IFD8
  [129, 1], // UTF-8; the number is from memory
]);

/** Bytes of one value of `type`, or null for a type no standard names: TIFF 6.0 asks readers to skip such fields. */
export function bytesOfType(type: number): number | null {
  return typeBytes.get(type) ?? null;
}

/**
 * The first `countMax` numbers of a field, or undefined where they are not at hand. Rationals are divided: a zero
 * denominator gives NaN or Infinity, which is how cameras write "unknown" (Exif 2.32 section 4.6.2).
 */
export function fieldNumbers(tiff: TiffStructure, field: Field, countMax: number): number[] | undefined {
  const size = bytesOfType(field.type);
  if (size === null) return undefined;
  const count = Math.min(field.count, countMax);
  const bytes = tiff.take(field.valueOffset, count * size);
  if (bytes === null) return undefined;
  const view = tiff.view(bytes);
  return Array.from({ length: count }, (_, i) =>
    numberAt(view, i * size, field.type, tiff.header.littleEndian),
  );
}

function numberAt(view: DataView, at: number, type: number, littleEndian: boolean): number {
  switch (type) {
    case 3:
      return view.getUint16(at, littleEndian);
    case 4:
    case 13:
      return view.getUint32(at, littleEndian);
    case 5:
      return view.getUint32(at, littleEndian) / view.getUint32(at + 4, littleEndian);
    case 6:
      return view.getInt8(at);
    case 8:
      return view.getInt16(at, littleEndian);
    case 9:
      return view.getInt32(at, littleEndian);
    case 10:
      return view.getInt32(at, littleEndian) / view.getInt32(at + 4, littleEndian);
    case 11:
      return view.getFloat32(at, littleEndian);
    case 12:
      return view.getFloat64(at, littleEndian);
    case 16:
    case 18:
      return Number(view.getBigUint64(at, littleEndian));
    case 17:
      return Number(view.getBigInt64(at, littleEndian));
    default:
      return view.getUint8(at);
  }
}

/**
 * A text field up to its first NUL, at most `bytesMax` bytes of it, or undefined where it is not text or not at hand.
 * Exif says ASCII, cameras write UTF-8 and Latin-1 as well: UTF-8 where that is valid, else one character per byte.
 */
export function fieldText(tiff: TiffStructure, field: Field, bytesMax: number): string | undefined {
  if (field.type !== 2 && field.type !== 129 && field.type !== 1 && field.type !== 7) return undefined;
  const bytes = tiff.take(field.valueOffset, Math.min(field.count, bytesMax));
  if (bytes === null) return undefined;
  const end = bytes.indexOf(0);
  return decodeText(end < 0 ? bytes : bytes.subarray(0, end));
}

function decodeText(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  }
}
