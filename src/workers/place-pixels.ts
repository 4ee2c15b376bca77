import { placeOfMosaic, placeOfPicture } from '../judge/index.ts';
import { decodeRaster } from './decode-raster.ts';
import type { PlaceAnswer, PlaceJob } from './judge-messages.ts';
import { openMosaic, type RawSource } from './raw-source.ts';

/** The job `place`. */
export async function placePixels(raws: RawSource, { path, kind, hints }: PlaceJob): Promise<PlaceAnswer> {
  const plane =
    kind === 'raw'
      ? placeOfMosaic((await openMosaic(raws, path, hints)).mosaic)
      : placeOfPicture(await decodeRaster(path), null);
  return { plane, widthPx: plane.fullWidthPx, heightPx: plane.fullHeightPx };
}
