import { createHash } from 'node:crypto';
import { open, readFile, rename, rm } from 'node:fs/promises';
import sharp, { type OutputInfo, type Sharp } from 'sharp';
import type { Finding } from '../facts/index.ts';
import { encodeTiff, extendBorder, sharpen, type TiffRaster, withJfif } from '../image/index.ts';
import { workerError } from './errors.ts';
import type { FinishAnswer, FinishFormat, FinishJob } from './finish-messages.ts';

type Deep = TiffRaster & { readonly data: Uint16Array };

/**
 * The job `finish`: size, the backdrop around it, sharpening, encoding; then what was written is read back from the disk before it has its
 * name, which it gets when it is as it was asked for or differs by no more than the answer says. Nothing in a file depends on when or
 * where it was made. Errors: `delivery-too-large`, `delivery-not-as-written`, the system's own.
 */
export async function finishDelivery(job: FinishJob): Promise<FinishAnswer> {
  const { picture, profile } = await pictureOf(job);
  sharpen(picture, job.sharpening);
  const framed = job.around === null ? picture : framedBy(picture, job.around);
  const { bytes, quality } = await encoded(framed, profile, job);
  const temporary = `${job.outPath}.part`;
  try {
    await writeDurably(temporary, bytes);
    const { findings, ...seen } = await checked(temporary, framed, profile, job);
    await rename(temporary, job.outPath);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    return {
      widthPx: framed.widthPx,
      heightPx: framed.heightPx,
      bytes: bytes.length,
      sha256,
      quality,
      ...seen,
      findings,
    };
  } catch (thrown) {
    await rm(temporary, { force: true });
    throw thrown;
  }
}

async function pictureOf({
  path,
  target,
}: FinishJob): Promise<{ readonly picture: Deep; readonly profile: Uint8Array }> {
  // The profile says what the values are; they themselves stay as they are.
  const opened = sharp(path, { ignoreIcc: true, limitInputPixels: false });
  const { icc } = await sharp(path, { limitInputPixels: false }).metadata();
  if (icc === undefined) throw workerError('delivery-not-as-written', { path });
  const { data, info } = await opened
    .resize(target.widthPx, target.heightPx, { fit: 'fill', kernel: 'lanczos3' })
    .toColourspace('rgb16')
    .raw({ depth: 'ushort' })
    .toBuffer({ resolveWithObject: true });
  const samples = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
  return {
    picture: { data: samples, widthPx: info.width, heightPx: info.height, channels: 3 },
    profile: new Uint8Array(icc),
  };
}

function framedBy(picture: Deep, { frame, leftPx, topPx }: NonNullable<FinishJob['around']>): Deep {
  return extendBorder(picture, frame, leftPx, topPx);
}

/** libvips counts by the millimetre, whatever is written. */
const mmPerInch = 25.4;

interface Encoded {
  readonly bytes: Uint8Array;
  readonly quality: number | null;
}

async function encoded(
  picture: Deep,
  profile: Uint8Array,
  { format, pixelsPerInch }: Pick<FinishJob, 'format' | 'pixelsPerInch'>,
): Promise<Encoded> {
  const deep = 'depth' in format && format.depth === 16;
  const raster = deep ? picture : toEight(picture);
  const tiff = encodeTiff(raster, profile, pixelsPerInch);
  if (format.kind === 'tiff' && format.compression === 'none') return { bytes: tiff, quality: null };
  const opened = sharp(tiff, { ignoreIcc: true, limitInputPixels: false })
    .keepIccProfile()
    .toColourspace(deep ? 'rgb16' : 'srgb');
  switch (format.kind) {
    case 'jpeg':
      return jpegWithin(opened, format, pixelsPerInch);
    case 'tiff':
      return plain(
        opened.tiff({
          compression: format.compression === 'lzw' ? 'lzw' : 'deflate',
          predictor: 'horizontal',
          resolutionUnit: 'inch',
          xres: pixelsPerInch / mmPerInch,
          yres: pixelsPerInch / mmPerInch,
        }),
      );
    case 'png':
      return plain(opened.png({ compressionLevel: 6 }));
    case 'webp':
      return plain(opened.webp({ quality: format.quality, effort: 4 }));
    case 'avif':
      return plain(opened.avif({ quality: format.quality, effort: 4, chromaSubsampling: '4:4:4' }));
  }
}

async function plain(opened: Sharp): Promise<Encoded> {
  return { bytes: await opened.toBuffer(), quality: null };
}

/** The best quality whose file has no more bytes: halving, since a better one is hardly ever smaller. */
async function jpegWithin(
  opened: Sharp,
  format: Extract<FinishFormat, { kind: 'jpeg' }>,
  pixelsPerInch: number,
): Promise<Encoded> {
  const at = async (quality: number): Promise<Encoded> => ({
    bytes: withJfif(
      await opened.clone().jpeg({ quality, chromaSubsampling: '4:4:4' }).toBuffer(),
      pixelsPerInch,
    ),
    quality,
  });
  const { bytesMax, qualityMin } = format;
  const best = await at(format.quality);
  if (bytesMax === null || best.bytes.length <= bytesMax) return best;
  let fits: Encoded | null = null;
  let [least, most] = [qualityMin, format.quality - 1];
  while (least <= most) {
    const quality = Math.ceil((least + most) / 2);
    const tried = await at(quality);
    if (tried.bytes.length <= bytesMax) {
      fits = tried;
      least = quality + 1;
    } else most = quality - 1;
  }
  if (fits === null) throw workerError('delivery-too-large', { bytesMax, qualityMin });
  return fits;
}

function toEight({ data, ...rest }: Deep): TiffRaster {
  return { ...rest, data: Uint8Array.from(data, (value) => Math.round(value / 257)) };
}

async function writeDurably(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'w');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

const formatNames: Readonly<Record<FinishFormat['kind'], readonly string[]>> = {
  jpeg: ['jpeg'],
  tiff: ['tiff'],
  png: ['png'],
  webp: ['webp'],
  avif: ['heif', 'avif'],
};

/** Reads a file as whoever it is for would. Errors: `delivery-not-as-written`. */
async function checked(
  path: string,
  wanted: TiffRaster,
  profile: Uint8Array,
  job: FinishJob,
): Promise<Pick<FinishAnswer, 'findings' | 'pixelsSha256' | 'profileSha256'>> {
  const bytes = await readFile(path);
  const opened = sharp(bytes, { ignoreIcc: true, failOn: 'warning', limitInputPixels: false });
  const broken = (why: string): Error => workerError('delivery-not-as-written', { path: job.outPath, why });
  const { width, height, format, icc, exif, xmp, iptc } = await opened.metadata();
  if (!formatNames[job.format.kind].includes(String(format))) throw broken('format');
  if (width !== wanted.widthPx || height !== wanted.heightPx) throw broken('size');
  if (icc === undefined || !Buffer.from(profile).equals(icc)) throw broken('profile');
  // Nobody asked for any: what is in a file without our doing is a camera's number or a place.
  if (exif !== undefined || xmp !== undefined || iptc !== undefined) throw broken('metadata');
  const { data, info } = await opened
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (data.length !== info.width * info.height * info.channels) throw broken('pixels');
  const hash = (of: Uint8Array): string => createHash('sha256').update(of).digest('hex');
  return {
    pixelsSha256: hash(data),
    profileSha256: hash(icc),
    findings: borderFindings(data, info, job.border),
  };
}

function borderFindings(
  data: Uint8Array,
  { width, height, channels }: OutputInfo,
  wanted: FinishJob['border'],
): readonly Finding[] {
  if (wanted === null) return [];
  let [least, dark, all] = [255, 0, 0];
  for (let y = 0; y < height; y++) {
    const step = y === 0 || y === height - 1 ? 1 : Math.max(1, width - 1);
    for (let x = 0; x < width; x += step) {
      const at = (y * width + x) * channels;
      let darkest = 255;
      for (let channel = 0; channel < Math.min(3, channels); channel++)
        darkest = Math.min(darkest, data[at + channel] ?? 0);
      least = Math.min(least, darkest);
      all += 1;
      if (darkest < wanted.leastCode) dark += 1;
    }
  }
  const percent = (100 * dark) / all;
  if (percent <= wanted.darkPercentMax) return [];
  return [{ code: 'deliver.background-not-white', args: { least, wanted: wanted.leastCode, percent } }];
}
