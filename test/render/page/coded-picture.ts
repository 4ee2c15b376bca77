import sharp from 'sharp';

/** A picture whose pixels say where they are. */
export const coded = { widthPx: 3000, heightPx: 2000 };

/**
 * Red is the column, green the row, in steps of 16 pixels; blue counts within the step, so that at full size every pixel
 * is one of its kind. PNG, lossless. `turn` swaps red and green: another picture of the same kind.
 */
export async function codedPicture(turn = false): Promise<Buffer> {
  const { widthPx: width, heightPx: height } = coded;
  const bytes = Buffer.alloc(width * height * 3);
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 3) {
      const [across, down] = [x >> 4, y >> 4];
      bytes[at] = turn ? down : across;
      bytes[at + 1] = turn ? across : down;
      bytes[at + 2] = ((x & 15) << 4) | (y & 15);
    }
  }
  return sharp(bytes, { raw: { width, height, channels: 3 } })
    .png({ compressionLevel: 1 })
    .withIccProfile('srgb')
    .toBuffer();
}

/** Where a pixel of a picture at full size comes from, pixels. */
export function placeOfPixel([red = 0, green = 0, blue = 0]: readonly number[]): { x: number; y: number } {
  return { x: (red << 4) | (blue >> 4), y: (green << 4) | (blue & 15) };
}
