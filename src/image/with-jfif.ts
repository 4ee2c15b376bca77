/** What {@link withJfif} adds. */
const jfifBytes = 18;

/**
 * A JPEG with a JFIF segment at its start that says how large it is printed, whole pixels per inch to 65,535
 * (ISO/IEC 10918-5:2013, 10.1). Its components must be Y'CbCr after ITU-R BT.601 or grey, as JFIF has it.
 * Errors: RangeError where it is no JPEG, or says so already.
 */
export function withJfif(jpeg: Uint8Array, pixelsPerInch: number): Uint8Array<ArrayBuffer> {
  const [first, second, third, fourth] = jpeg;
  if (first !== 0xff || second !== 0xd8) throw new RangeError('no JPEG');
  if (third === 0xff && fourth === 0xe0) throw new RangeError('it begins with APP0 already');
  const bytes = new Uint8Array(jpeg.length + jfifBytes);
  const view = new DataView(bytes.buffer);
  bytes.set([0xff, 0xd8, 0xff, 0xe0]);
  view.setUint16(4, jfifBytes - 2);
  bytes.set([0x4a, 0x46, 0x49, 0x46, 0, 1, 2, 1], 6); // "JFIF", version 1.02, by the inch
  view.setUint16(14, pixelsPerInch);
  view.setUint16(16, pixelsPerInch);
  // No thumbnail: two noughts.
  bytes.set(jpeg.subarray(2), 2 + jfifBytes);
  return bytes;
}
