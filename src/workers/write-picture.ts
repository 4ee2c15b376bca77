import { randomBytes } from 'node:crypto';
import { rename, rm, writeFile } from 'node:fs/promises';
import sharp from 'sharp';
import type { Rgb8 } from '../image/index.ts';
import type { PictureFormat } from './messages.ts';

/**
 * Encodes encoded-sRGB pixels and puts the file at `outPath`; returns its size in bytes. The sRGB profile that libvips
 * brings is embedded (values pass through it unchanged, which a test holds).
 */
export async function writePicture(picture: Rgb8, format: PictureFormat, outPath: string): Promise<number> {
  return writeWhole(outPath, await encodePicture(picture, format));
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

function encodePicture(picture: Rgb8, format: PictureFormat): Promise<Uint8Array> {
  const { data, widthPx: width, heightPx: height, channels } = picture;
  const encoder = sharp(data, {
    raw: { width, height, channels },
    limitInputPixels: false,
  }).withIccProfile('srgb');
  switch (format) {
    case 'jpeg':
      // 4:4:4: half-size pictures are looked at closely, and red edges fall apart with less.
      return encoder.jpeg({ quality: 90, chromaSubsampling: '4:4:4' }).toBuffer();
    case 'webp':
      // Effort 1 takes half the time of the default for a few per cent more bytes.
      return encoder.webp({ quality: 88, effort: 1 }).toBuffer();
    case 'png':
      return encoder.png({ compressionLevel: 3 }).toBuffer();
  }
}
