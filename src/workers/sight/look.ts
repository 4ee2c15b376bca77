import sharp, { type Sharp } from 'sharp';
import type { SmallPicture } from '../../slate/index.ts';
import { rasterPixelsMax } from '../decode-raster.ts';
import { workerError } from '../errors.ts';
import { readCodes } from './code-reader.ts';
import type { LookAnswer, LookJob } from './messages.ts';
import { sharpenGrey } from './sharpen-grey.ts';

/**
 * Long edge of the picture that is looked at, pixels: a code with its quiet zone that takes a fifteenth of the frame's
 * width has three pixels a module then, which is what the reader needs.
 */
const lookedAtEdgePx = 2000;
const smallEdgePx = 64;

/** The job `look`. A JPEG whose end has not arrived is looked at as far as it goes. */
export async function look({ picture, small }: LookJob): Promise<LookAnswer> {
  const input = 'path' in picture ? picture.path : picture.bytes;
  try {
    const { data, info } = await open(input, lookedAtEdgePx)
      // Before the reducing: half the time of `greyscale`, which comes after it (measured).
      .toColourspace('b-w')
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    const size = { widthPx: info.width, heightPx: info.height };
    const grey = { data: firstChannel(data, info.channels), ...size };
    const sharpened = await readCodes(sharpenGrey(grey));
    return {
      name: 'look',
      // A sharp code among noise may be read only as it is.
      codes: sharpened.length > 0 ? sharpened : await readCodes(grey),
      ...size,
      small: small ? await smallPicture(input) : null,
    };
  } catch (thrown) {
    const said = thrown instanceof Error ? thrown.message.slice(0, 200) : '';
    throw workerError('picture-cannot-decode', { said }, thrown);
  }
}

function open(input: string | Uint8Array, edgePx: number): Sharp {
  return sharp(input, { failOn: 'none', limitInputPixels: rasterPixelsMax, sequentialRead: true })
    .resize(edgePx, edgePx, { fit: 'inside', withoutEnlargement: true })
    .flatten({ background: '#ffffff' });
}

async function smallPicture(input: string | Uint8Array): Promise<SmallPicture> {
  const { data, info } = await open(input, smallEdgePx)
    .toColourspace('srgb')
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true });
  const { width: widthPx, height: heightPx, channels } = info;
  const rgb = new Uint8Array(widthPx * heightPx * 3);
  for (let n = 0; n < widthPx * heightPx; n += 1) {
    for (let channel = 0; channel < 3; channel += 1)
      rgb[n * 3 + channel] = data[n * channels + Math.min(channel, channels - 1)] ?? 0;
  }
  return { data: rgb, widthPx, heightPx };
}

function firstChannel(data: Uint8Array, channels: number): Uint8Array {
  if (channels === 1) return data;
  return Uint8Array.from({ length: data.length / channels }, (_, n) => data[n * channels] ?? 0);
}
