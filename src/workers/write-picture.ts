import { randomBytes } from 'node:crypto';
import { rename, rm, writeFile } from 'node:fs/promises';
import sharp from 'sharp';
import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import { embedJpegProfile, type Rgb8 } from '../image/index.ts';
import {
  type OutputFormat,
  type PictureFormat,
  pictureFormats,
  type SmallerRendering,
} from './render-messages.ts';

/**
 * Encodes encoded-sRGB pixels and puts the file at `outPath`; returns its size in bytes. An sRGB profile is embedded:
 * our own in a JPEG, libvips' in the others (values pass through it unchanged, which a test holds).
 */
export async function writePicture(picture: Rgb8, format: PictureFormat, outPath: string): Promise<number> {
  return writeWhole(outPath, await encodePicture(picture, format));
}

/** A format without a chosen space is one that a screen shows. */
export function screenFormat(format: OutputFormat): PictureFormat {
  const known = pictureFormats.find((name) => name === format);
  if (known === undefined) throw new RangeError(`${format} goes with a chosen space only`);
  return known;
}

/** The pictures of `RenderJob.also`, each to its own place, in the same order. */
export async function writeSmaller(
  pictures: readonly Rgb8[],
  also: readonly SmallerRendering[],
): Promise<void> {
  for (const [index, { format, outPath }] of also.entries()) {
    const picture = pictures[index];
    if (picture !== undefined) await writePicture(picture, format, outPath);
  }
}

/** The bytes of a file that appears at `path` whole or not at all. A rendering can be made again, so nothing is synced. */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<number> {
  const temporary = `${path}.${randomBytes(6).toString('hex')}.part`;
  try {
    await writeFile(temporary, bytes, { flag: 'wx' });
    await rename(temporary, path);
  } catch (thrown) {
    await rm(temporary, { force: true });
    throw thrown;
  }
  return bytes.length;
}

const srgbProfile = encodeIccProfile(rgbSpaces.srgb);

async function encodePicture(picture: Rgb8, format: PictureFormat): Promise<Uint8Array> {
  const { data, widthPx: width, heightPx: height, channels } = picture;
  const encoder = sharp(data, { raw: { width, height, channels }, limitInputPixels: false });
  switch (format) {
    case 'jpeg': {
      // 4:4:4: half-size pictures are looked at closely, and red edges fall apart with less. Standard Huffman tables cost
      // 2 per cent more bytes and a third of the time; the profile put in by hand spares a conversion to itself. Measured
      // at 6 megapixels: 28 ms instead of 107.
      const options = { quality: 90, chromaSubsampling: '4:4:4', optimizeCoding: false } as const;
      return embedJpegProfile(await encoder.jpeg(options).toBuffer(), srgbProfile);
    }
    case 'webp':
      // Effort 1 takes half the time of the default for a few per cent more bytes.
      return encoder.withIccProfile('srgb').webp({ quality: 88, effort: 1 }).toBuffer();
    case 'png':
      return encoder.withIccProfile('srgb').png({ compressionLevel: 3 }).toBuffer();
  }
}
