import sharp from 'sharp';
import { encodeIccProfile, readIccProfile, rgbSpaces } from '../colour/index.ts';
import type { Rgb16 } from '../image/index.ts';
import { assertFinished, decodePicture, rasterBytesMax, rasterPixelsMax, readable } from './decode-raster.ts';
import { workerError } from './errors.ts';
import { readOriginal } from './read-original.ts';
import { throughLittleCms } from './write-output.ts';

/** The space that finished pictures are taken into on their way to another: wide enough for all they come in. */
export const wideSpace = rgbSpaces.romm;

const wideProfile = encodeIccProfile(wideSpace);
const srgbProfile = encodeIccProfile(rgbSpaces.srgb);

/**
 * A finished picture, upright, as 16 bits of {@link wideSpace}, from whatever RGB profile it carries; sRGB where it carries
 * none. Pictures of grey or of inks come by way of sRGB. Transparency is laid on white.
 * Errors: those of `decodeRaster`.
 */
export async function decodeWide(path: string): Promise<Rgb16> {
  const bytes = await readOriginal(path, rasterBytesMax, () =>
    workerError('picture-too-large', { bytesMax: rasterBytesMax }),
  );
  assertFinished(bytes);
  const { picture, profile } = (await decodeAsStored(bytes)) ?? {
    picture: sixteen(await decodePicture(bytes)),
    profile: srgbProfile,
  };
  const { data, widthPx, heightPx } = await throughLittleCms(picture, profile, wideProfile);
  return { data, widthPx, heightPx, channels: 3 };
}

/** The stored values with the profile that says what they mean; null where those are not RGB. */
async function decodeAsStored(
  bytes: Uint8Array,
): Promise<{ readonly picture: Rgb16; readonly profile: Uint8Array } | null> {
  const options = { failOn: 'truncated', limitInputPixels: rasterPixelsMax, ignoreIcc: true } as const;
  try {
    const { icc, space, depth } = await sharp(bytes, options).metadata();
    if (space !== 'srgb' && space !== 'rgb16') return null;
    if (icc !== undefined && readIccProfile(icc)?.colourSpace !== 'RGB ') return null;
    const isDeep = depth === 'ushort';
    const { data, info } = await sharp(bytes, { ...options, sequentialRead: true })
      .autoOrient()
      .flatten({ background: '#ffffff' })
      .toColourspace(isDeep ? 'rgb16' : 'srgb')
      .raw({ depth: isDeep ? 'ushort' : 'uchar' })
      .toBuffer({ resolveWithObject: true });
    if (info.channels !== 3) return null;
    const size = { widthPx: info.width, heightPx: info.height };
    const stored = isDeep
      ? {
          data: new Uint16Array(data.buffer, data.byteOffset, data.length / 2),
          ...size,
          channels: 3 as const,
        }
      : sixteen({ data, ...size, channels: 3 });
    return { picture: stored, profile: icc ?? srgbProfile };
  } catch (thrown) {
    throw readable(thrown);
  }
}

/** 255 is 65,535. */
function sixteen({ data, widthPx, heightPx }: { data: Uint8Array } & Omit<Rgb16, 'data'>): Rgb16 {
  return { data: Uint16Array.from(data, (code) => code * 257), widthPx, heightPx, channels: 3 };
}
