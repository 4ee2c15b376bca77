/** How the numbers of one TIFF structure are written, and where its first directory is. */
export interface TiffHeader {
  readonly littleEndian: boolean;
  /** BigTIFF (2007): 64-bit offsets and counts. */
  readonly big: boolean;
  /** False for raw files that use the structure under another magic number: their tags are not all the standard's. */
  readonly standard: boolean;
  /** True where the writer marks a raw file of its own behind the header. */
  readonly marksRaw: boolean;
  readonly firstIfdOffset: number;
}

/** Bytes from the start that {@link parseTiffHeader} can use; 8 are enough for a classic TIFF. */
export const tiffHeaderBytesMax = 16;

/** TIFF 6.0 section 2, "Image File Header". */
const classicMagic = 42;
const bigMagic = 43;

/** Magic numbers under which raw files keep the structure of TIFF; common practice, no source. */
const rawMagics: readonly number[] = [0x55, 0x4f52, 0x5352];

/**
 * The header at the start of `bytes`, or null where they are no TIFF structure or too few to say.
 * Eight bytes serve; sixteen are needed for BigTIFF and to see the raw mark.
 */
export function parseTiffHeader(bytes: Uint8Array): TiffHeader | null {
  if (bytes.length < 8) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const order = view.getUint16(0);
  if (order !== 0x4949 && order !== 0x4d4d) return null;
  const littleEndian = order === 0x4949;
  const magic = view.getUint16(2, littleEndian);
  if (magic === bigMagic) return parseBigHeader(view, littleEndian);
  if (magic !== classicMagic && !rawMagics.includes(magic)) return null;
  return {
    littleEndian,
    big: false,
    standard: magic === classicMagic,
    marksRaw: magic !== classicMagic || hasRawMark(bytes),
    firstIfdOffset: view.getUint32(4, littleEndian),
  };
}

function parseBigHeader(view: DataView, littleEndian: boolean): TiffHeader | null {
  if (view.byteLength < 16 || view.getUint16(4, littleEndian) !== 8 || view.getUint16(6, littleEndian) !== 0)
    return null;
  return {
    littleEndian,
    big: true,
    standard: true,
    marksRaw: false,
    firstIfdOffset: Number(view.getBigUint64(8, littleEndian)),
  };
}

/** "CR" and a version at bytes 8 to 10; common practice, no source. */
function hasRawMark(bytes: Uint8Array): boolean {
  return bytes.length >= 11 && bytes[8] === 0x43 && bytes[9] === 0x52 && bytes[10] === 2;
}
