import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { encodeTiff, type TiffRaster } from '../image/index.ts';
import { badProfile } from './errors.ts';
import type { OutputWay } from './output-way.ts';
import type { OutputFormat } from './render-messages.ts';
import { writeWhole } from './write-picture.ts';

/**
 * Writes a picture as `way.rendered` made it, once littleCMS has brought it to `way.custom` where that is wanted, with its
 * profile inside; returns the file's bytes. JPEG, WebP and AVIF hold 8 bits.
 * Errors: `bad-profile` where littleCMS cannot use the profile.
 */
export async function writeOutput(
  picture: TiffRaster,
  way: OutputWay,
  depth: 8 | 16,
  format: OutputFormat,
  outPath: string,
): Promise<number> {
  if (way.custom === null) return writeWhole(outPath, await encodeOutput(picture, way.profile, format));
  const converted = await throughLittleCms(picture, way.profile, way.custom);
  const rounded = depth === 8 ? toEight(converted) : converted;
  return writeWhole(outPath, await encodeOutput(rounded, way.custom, format));
}

/** 16 bits of one profile to 16 bits of another; grey comes back with one channel. */
export async function throughLittleCms(
  picture: TiffRaster,
  from: Uint8Array,
  to: Uint8Array,
): Promise<TiffRaster & { readonly data: Uint16Array }> {
  return withFileOf(to, async (profilePath) => {
    const warnings: string[] = [];
    // `ignoreIcc` spares a detour over a smaller space; the profile inside is still what the last step begins at.
    const opened = sharp(encodeTiff(picture, from), { ignoreIcc: true, limitInputPixels: false })
      .on('warning', (warning: unknown) => warnings.push(String(warning)))
      .toColourspace('rgb16')
      .withIccProfile(profilePath);
    const { data, info } = await opened.raw({ depth: 'ushort' }).toBuffer({ resolveWithObject: true });
    // libvips goes on without the profile where littleCMS refuses it.
    if (warnings.length > 0) throw badProfile('The colour engine cannot use the tables of this ICC profile.');
    const samples = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
    return {
      data: samples,
      widthPx: info.width,
      heightPx: info.height,
      channels: info.channels === 1 ? 1 : 3,
    };
  });
}

/** libvips takes a profile by the name of its file only. */
async function withFileOf<T>(bytes: Uint8Array, use: (path: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'setside-profile-'));
  try {
    const path = join(folder, 'profile.icc');
    await writeFile(path, bytes);
    return await use(path);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** To the nearest: libvips would cut the lower 8 bits off. */
function toEight({ data, ...rest }: TiffRaster): TiffRaster {
  return { ...rest, data: Uint8Array.from(data, (value) => Math.round(value / 257)) };
}

/** The profile travels inside a TIFF, from which libvips takes it along without touching a value. */
async function encodeOutput(
  picture: TiffRaster,
  profile: Uint8Array,
  format: OutputFormat,
): Promise<Uint8Array> {
  const tiff = encodeTiff(picture, profile);
  if (format === 'tiff') return tiff;
  const isDeep = picture.data instanceof Uint16Array;
  const [grey, rgb] = isDeep ? (['grey16', 'rgb16'] as const) : (['b-w', 'srgb'] as const);
  const opened = sharp(tiff, { limitInputPixels: false })
    .keepIccProfile()
    .toColourspace(picture.channels === 1 ? grey : rgb);
  return encoded(opened, format).toBuffer();
}

function encoded(opened: Sharp, format: Exclude<OutputFormat, 'tiff'>): Sharp {
  switch (format) {
    case 'jpeg':
      return opened.jpeg({ quality: 92, chromaSubsampling: '4:4:4' });
    case 'webp':
      return opened.webp({ quality: 90, effort: 2 });
    case 'png':
      return opened.png({ compressionLevel: 6 });
    case 'avif':
      return opened.avif({ quality: 75, effort: 2, chromaSubsampling: '4:4:4' });
  }
}
