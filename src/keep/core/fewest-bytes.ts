import { baseName } from './folder-tree.ts';
import { foldName, splitName } from './safe-name.ts';

/** SOI and EOI, the markers that every JPEG begins and ends with (ITU-T T.81 B.1.1.3), bytes. */
const jpegFewest = 4;
/** The header of a TIFF, and so of a DNG and most raws (TIFF 6.0 section 2), bytes. */
const tiffFewest = 8;
/** The file type box without further brands (ISO/IEC 14496-12 4.3), bytes. */
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
