/** The camera's own pictures as JPEG, by libvips (sharp). */
import sharp, { type Sharp } from 'sharp';
import type { SmallPicture } from './core/camera-picture.ts';
import type { EmbeddedJpeg } from './core/raw-shape.ts';

/** Widths that cameras use for the small ones (measured heads of raw files: 160 to 256 and 1440 to 1620). */
const thumbnailWidthPx = 256;
const previewWidthPxMax = 1620;
/** The full-size one is the camera's JPEG file, too: such files keep the noise (common practice, no source). */
const fullQuality = 95;
/** DCF (CIPA DC-009) section 3.3.5: the thumbnail of a JPEG file. */
const dcfThumbnail = { width: 160, height: 120 } as const;

export interface CameraJpegs {
  readonly thumbnail: EmbeddedJpeg;
  readonly preview: EmbeddedJpeg;
  /** As large as the sensor. */
  readonly full: EmbeddedJpeg;
  /** 4:3, so the picture has a bar above and below. */
  readonly dcfThumbnail: EmbeddedJpeg;
}

/** `half` and `full` are the same picture in two sizes: the small ones are made of the smaller. */
export async function encodeJpegs(half: SmallPicture, full: SmallPicture): Promise<CameraJpegs> {
  const small = open(half);
  const [thumbnail, preview, whole, dcf] = await Promise.all([
    encode(small.clone().resize({ width: Math.min(thumbnailWidthPx, half.widthPx), kernel: 'lanczos3' }), 75),
    encode(
      small.clone().resize({ width: Math.min(previewWidthPxMax, half.widthPx), kernel: 'lanczos3' }),
      86,
    ),
    encode(open(full), fullQuality),
    encode(small.clone().resize({ ...dcfThumbnail, fit: 'contain', background: 'black' }), 75),
  ]);
  return { thumbnail, preview, full: whole, dcfThumbnail: dcf };
}

function open({ rgb, widthPx, heightPx }: SmallPicture): Sharp {
  return sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } });
}

async function encode(picture: Sharp, quality: number): Promise<EmbeddedJpeg> {
  const { data, info } = await picture
    .jpeg({ quality, chromaSubsampling: '4:2:0' })
    .toBuffer({ resolveWithObject: true });
  return { bytes: data, widthPx: info.width, heightPx: info.height };
}
