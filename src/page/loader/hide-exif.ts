/** JPEG markers (ISO/IEC 10918-1, table B.1). */
const startOfImage = 0xd8;
const startOfScan = 0xda;
const app1 = 0xe1;
/** What an APP1 segment with Exif begins with (Exif 2.32, 4.7.2): "Exif" and two zero bytes. */
const exifName: readonly number[] = [0x45, 0x78, 0x69, 0x66, 0, 0];

/**
 * Makes a browser leave a JPEG's pixels as they are stored. Browsers turn a picture by its Exif orientation and offer
 * no way to ask for the raster as it is: `imageOrientation: "none"` of `createImageBitmap` means "as Exif says" and is
 * an old name of "from-image" (whatwg/html issue 8085). The station says how to turn a preview, so the names of its
 * Exif segments are overwritten, in place, and nobody reads them.
 *
 * Bytes that are not a JPEG, or end early, are left as they are. Everything else in the file is untouched.
 */
export function hideExif(bytes: Uint8Array): void {
  if (bytes[0] !== 0xff || bytes[1] !== startOfImage) return;
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1];
    if (marker === 0xff) {
      // A fill byte before the marker (B.1.1.2).
      at += 1;
      continue;
    }
    if (marker === startOfScan) return;
    const length = ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
    if (length < 2) return;
    if (marker === app1 && exifName.every((byte, index) => bytes[at + 4 + index] === byte)) bytes[at + 4] = 0;
    at += 2 + length;
  }
}
