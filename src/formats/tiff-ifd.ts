import type { ByteRange } from './byte-source.ts';
import { bytesOfType, type Field, fieldNumbers, fieldText } from './tiff-field.ts';
import type { TiffStructure } from './tiff-structure.ts';

/** What a directory describes. `main` are those of the chain that the header starts, `sub` those of SubIFDs. */
export type IfdRole = 'main' | 'sub' | 'exif' | 'gps' | 'interoperability';

/** One image file directory. */
export interface Ifd {
  readonly role: IfdRole;
  /** Within its structure. */
  readonly offset: number;
  readonly fields: ReadonlyMap<number, Field>;
  /** The next directory of the chain; 0 ends it. Read for `main` only. */
  readonly nextOffset: number;
}

/**
 * The directory at `offset`, or null while it is not at hand. Values that lie outside the entries are not read, but
 * the file must hold them: each is claimed.
 */
export function parseIfd(tiff: TiffStructure, offset: number, role: IfdRole): Ifd | null {
  const { big, littleEndian } = tiff.header;
  const countBytes = big ? 8 : 2;
  const entryBytes = big ? 20 : 12;
  // Writers leave the last pointer out behind an Exif directory; only the main chain depends on it.
  const linkBytes = role === 'main' ? (big ? 8 : 4) : 0;
  const head = tiff.take(offset, countBytes);
  if (head === null) return null;
  const claimed = big
    ? Number(tiff.view(head).getBigUint64(0, littleEndian))
    : tiff.view(head).getUint16(0, littleEndian);
  const where = tiff.baseOffset + offset;
  if (claimed === 0) tiff.reader.warn('ifd-empty', where);
  if (claimed > tiff.reader.limits.entriesMax) {
    tiff.reader.doubt('ifd-too-many-entries', where);
    return null;
  }
  const bodyOffset = offset + countBytes;
  const body = tiff.take(bodyOffset, claimed * entryBytes + linkBytes);
  if (body === null) return null;
  const view = tiff.view(body);
  const fields = new Map<number, Field>();
  for (let i = 0; i < claimed; i++) {
    const field = parseEntry(tiff, view, i * entryBytes, bodyOffset);
    // A tag that comes twice keeps its first value, as readers in the field do.
    if (field !== null && !fields.has(field.tag)) fields.set(field.tag, field);
  }
  return {
    role,
    offset,
    fields,
    nextOffset: linkBytes === 0 ? 0 : pointerAt(tiff, view, claimed * entryBytes),
  };
}

function parseEntry(tiff: TiffStructure, view: DataView, at: number, bodyOffset: number): Field | null {
  const { big, littleEndian } = tiff.header;
  const type = view.getUint16(at + 2, littleEndian);
  const size = bytesOfType(type);
  if (size === null) return null;
  const count = big ? Number(view.getBigUint64(at + 4, littleEndian)) : view.getUint32(at + 4, littleEndian);
  const slotAt = at + (big ? 12 : 8);
  const field = { tag: view.getUint16(at, littleEndian), type, count };
  if (count * size <= (big ? 8 : 4)) return { ...field, valueOffset: bodyOffset + slotAt };
  const valueOffset = pointerAt(tiff, view, slotAt);
  return tiff.claim(valueOffset, count * size) ? { ...field, valueOffset } : null;
}

function pointerAt(tiff: TiffStructure, view: DataView, at: number): number {
  return tiff.header.big
    ? Number(view.getBigUint64(at, tiff.header.littleEndian))
    : view.getUint32(at, tiff.header.littleEndian);
}

/** The numbers of a tag, at most `countMax`; undefined where the directory has none or they are not at hand. */
export function numbersOf(
  tiff: TiffStructure,
  ifd: Ifd | undefined,
  tagNumber: number,
  countMax: number,
): number[] | undefined {
  const field = ifd?.fields.get(tagNumber);
  return field === undefined ? undefined : fieldNumbers(tiff, field, countMax);
}

/** The first number of a tag. */
export function numberOf(tiff: TiffStructure, ifd: Ifd | undefined, tagNumber: number): number | undefined {
  return numbersOf(tiff, ifd, tagNumber, 1)?.[0];
}

/** A length in pixels: a whole number above zero that a picture can have, else undefined. */
export function pixelsOf(tiff: TiffStructure, ifd: Ifd | undefined, tagNumber: number): number | undefined {
  const figure = numberOf(tiff, ifd, tagNumber);
  return figure !== undefined && Number.isInteger(figure) && figure > 0 && figure < 2 ** 31
    ? figure
    : undefined;
}

/** The text of a tag, as written. */
export function textOf(tiff: TiffStructure, ifd: Ifd | undefined, tagNumber: number): string | undefined {
  const field = ifd?.fields.get(tagNumber);
  return field === undefined ? undefined : fieldText(tiff, field, tiff.reader.limits.textBytesMax);
}

/** Where the value of a tag of bytes lies in the file; undefined where the directory has none, or it is of numbers. */
export function rangeOf(tiff: TiffStructure, ifd: Ifd | undefined, tagNumber: number): ByteRange | undefined {
  const field = ifd?.fields.get(tagNumber);
  // BYTE or UNDEFINED.
  if (field === undefined || (field.type !== 1 && field.type !== 7) || field.count === 0) return undefined;
  return { offset: tiff.baseOffset + field.valueOffset, length: field.count };
}
