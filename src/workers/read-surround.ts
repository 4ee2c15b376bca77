import { placeOfPicture, plainSides, readInPlace } from '../judge/index.ts';
import { decodeRaster } from './decode-raster.ts';
import type { SurroundAnswer, SurroundJob } from './judge-messages.ts';

/** The job `surround`: what stands before a plain backdrop in a rendering, and which of its sides are plain. */
export async function readSurround({ path }: SurroundJob): Promise<SurroundAnswer> {
  const picture = await decodeRaster(path, { isOurs: true });
  const { subject } = readInPlace(placeOfPicture(picture, null), null);
  const { widthPx, heightPx } = picture;
  return {
    widthPx,
    heightPx,
    subject: 'unknown' in subject ? null : subject.box,
    plain: plainSides(picture),
  };
}
