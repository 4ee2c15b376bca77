/** The camera's own pictures as JPEG, by libvips (sharp). */
import sharp from 'sharp';
import type { SmallPicture } from './core/camera-picture.ts';
import type { EmbeddedJpeg } from './core/raw-shape.ts';

/** Widths that cameras use for the two (measured heads of raw files: 160 to 256 and 1440 to 1620). */
const thumbnailWidthPx = 256;
const previewWidthPxMax = 1620;

export async function encodeEmbedded(
  picture: SmallPicture,
): Promise<{ readonly thumbnail: EmbeddedJpeg; readonly preview: EmbeddedJpeg }> {
  const [thumbnail, preview] = await Promise.all([
    encode(picture, Math.min(thumbnailWidthPx, picture.widthPx), 75),
    encode(picture, Math.min(previewWidthPxMax, picture.widthPx), 86),
  ]);
  return { thumbnail, preview };
}

async function encode(picture: SmallPicture, widthPx: number, quality: number): Promise<EmbeddedJpeg> {
  const { data, info } = await sharp(picture.rgb, {
    raw: { width: picture.widthPx, height: picture.heightPx, channels: 3 },
  })
    .resize({ width: widthPx, kernel: 'lanczos3' })
    .jpeg({ quality, chromaSubsampling: '4:2:0' })
    .toBuffer({ resolveWithObject: true });
  return { bytes: data, widthPx: info.width, heightPx: info.height };
}
