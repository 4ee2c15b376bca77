import sharp from 'sharp';
import { SetsideError } from '../base/index.ts';
import { inspect, sourceOfBytes } from '../formats/index.ts';
import { type Orientation, type Rgb8, turnUpright } from '../image/index.ts';
import { workerError } from './errors.ts';
import { readOriginal } from './read-original.ts';

/** Largest raster original, pixels: a 150-megapixel camera's own JPEG; 450 MB once decoded. */
export const rasterPixelsMax = 150_000_000;

/** Largest raster file, bytes: 16-bit RGB of {@link rasterPixelsMax}, uncompressed. */
export const rasterBytesMax: number = rasterPixelsMax * 6;

export interface DecodeRasterOptions {
  /** A rendering of ours, in sRGB for certain, whose profile need not be looked at (half the time). */
  readonly isOurs?: boolean;
  /** In place of what the file says: a preview was turned by the raw it was cut from. */
  readonly orientation?: Orientation;
  /** A JPEG that is still arriving: what is missing of it comes out grey. */
  readonly mayBeCut?: boolean;
}

/**
 * A finished picture (JPEG, PNG, WebP, TIFF) decoded: upright, in sRGB whatever profile it carries, three channels of
 * 8 bits, transparency laid on white.
 * Errors: `picture-is-raw`, `picture-too-large`, `picture-cannot-decode`, the system's own.
 */
export async function decodeRaster(path: string, options: DecodeRasterOptions = {}): Promise<Rgb8> {
  const bytes = await readOriginal(path, rasterBytesMax, () =>
    workerError('picture-too-large', { bytesMax: rasterBytesMax }),
  );
  return decodePicture(bytes, options);
}

/** The same of bytes at hand. */
export async function decodePicture(bytes: Uint8Array, options: DecodeRasterOptions = {}): Promise<Rgb8> {
  const { isOurs = false, orientation, mayBeCut = false } = options;
  assertFinished(bytes);
  try {
    const opened = sharp(bytes, {
      // Cut files are an error; a decoder's lesser complaints are not: cameras write JPEGs that libjpeg frowns upon.
      failOn: mayBeCut ? 'none' : 'truncated',
      limitInputPixels: rasterPixelsMax,
      sequentialRead: true,
      ignoreIcc: isOurs,
    });
    const { data, info } = await (orientation === undefined ? opened.autoOrient() : opened)
      .flatten({ background: '#ffffff' })
      .toColourspace('srgb')
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    const picture: Rgb8 = {
      ...threeChannels(data, info.channels),
      widthPx: info.width,
      heightPx: info.height,
    };
    return orientation === undefined ? picture : turnUpright(picture, orientation);
  } catch (thrown) {
    throw readable(thrown);
  }
}

/** libvips opens a raw file as TIFF and quietly gives its preview, so kinds are decided before it sees the bytes. */
export function assertFinished(bytes: Uint8Array): void {
  const { kind } = inspect(sourceOfBytes(bytes));
  switch (kind) {
    case 'jpeg':
    case 'png':
    case 'webp':
    case 'tiff':
      return;
    case 'dng':
    case 'tiff-raw':
    case 'iso-bmff-raw':
    case 'raf':
      throw workerError('picture-is-raw', { kind });
    case 'text':
    case 'unknown':
    case 'empty':
      throw workerError('picture-cannot-decode', { kind });
  }
}

/** A grey picture comes back with one channel. */
function threeChannels(data: Uint8Array, channels: number): Pick<Rgb8, 'data' | 'channels'> {
  if (channels === 3) return { data, channels: 3 };
  const rgb = new Uint8Array((data.length / channels) * 3);
  for (let from = 0, to = 0; from < data.length; from += channels, to += 3)
    rgb.fill(data[from] ?? 0, to, to + 3);
  return { data: rgb, channels: 3 };
}

/** libvips tells its failures apart by their text only. */
export function readable(thrown: unknown): unknown {
  if (thrown instanceof SetsideError || !(thrown instanceof Error)) return thrown;
  const tooLarge = /pixel limit/i.test(thrown.message);
  return workerError(
    tooLarge ? 'picture-too-large' : 'picture-cannot-decode',
    { said: thrown.message.slice(0, 200) },
    thrown,
  );
}
