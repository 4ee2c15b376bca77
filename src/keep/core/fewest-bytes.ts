import { baseName } from './folder-tree.ts';
import { foldName, splitName } from './safe-name.ts';

/** SOI and EOI, which mark the start and the end of a compressed image (ITU-T T.81 (1992) B.2.1), of two bytes each (table B.1). */
const jpegFewest = 4;
/** The image file header of a TIFF (TIFF 6.0 section 2, page 13), and so of a DNG and most raws, bytes. */
const tiffFewest = 8;
/**
 * The file type box without further brands, bytes: size and type, major brand and minor version, of four bytes each
 * (ISO/IEC 14496-12:2005 4.2 and 4.3).
 */
const isoFewest = 16;

/** By extension. Which raws are which: common practice, no source. */
const fewest: ReadonlyMap<string, number> = new Map([
  ...['jpg', 'jpeg', 'jpe'].map((extension) => [extension, jpegFewest] as const),
  ...['dng', 'tif', 'tiff', 'nef', 'arw', 'cr2'].map((extension) => [extension, tiffFewest] as const),
  ...['cr3', 'heic', 'heif', 'hif'].map((extension) => [extension, isoFewest] as const),
]);

/** A file whose name promises a picture and that has fewer bytes than this cannot be one; 0 where it promises nothing. */
export function fewestBytes(path: string): number {
  const extension = foldName(splitName(baseName(path)).extension).replace(/^\./, '');
  return fewest.get(extension) ?? 0;
}
