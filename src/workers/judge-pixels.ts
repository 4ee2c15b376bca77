import type { FrameReadings } from '../facts/index.ts';
import { type Rgb8, type Size, uprightSize } from '../image/index.ts';
import { readMosaic, readPicture } from '../judge/index.ts';
import { decodePicture, decodeRaster } from './decode-raster.ts';
import { workerError } from './errors.ts';
import type { JudgeAnswer, JudgeJob } from './judge-messages.ts';
import { openMosaic, type RawSource } from './raw-source.ts';
import { stopwatch } from './stopwatch.ts';

/**
 * The job `judge`. The mosaic of a raw that this worker has just developed is still at hand; a finished picture is decoded
 * again, since only a smaller one was kept of it.
 */
export async function judgePixels(raws: RawSource, job: JudgeJob): Promise<JudgeAnswer> {
  const lap = stopwatch();
  const { size, read } = await opened(raws, job);
  const decodeMs = lap();
  const readings = read();
  return { readings, ...size, timings: { decodeMs, judgeMs: lap() } };
}

interface Opened {
  readonly size: Size;
  readonly read: () => FrameReadings;
}

async function opened(raws: RawSource, { path, kind, wishes, hints, preview }: JudgeJob): Promise<Opened> {
  if (kind === 'raw') {
    const { mosaic } = await openMosaic(raws, path, hints);
    return { size: uprightSize(mosaic, mosaic.orientation), read: () => readMosaic(mosaic, wishes) };
  }
  if (kind === 'raster') {
    const picture = await decodeRaster(path);
    return { size: sizeOf(picture), read: () => readPicture(picture, wishes, null) };
  }
  if (preview === undefined) throw workerError('picture-cannot-decode', { path });
  const picture = await decodePicture(preview.jpeg, { orientation: preview.orientation });
  return { size: sizeOf(picture), read: () => readPicture(picture, wishes, preview.fullWidthPx) };
}

function sizeOf({ widthPx, heightPx }: Rgb8): Size {
  return { widthPx, heightPx };
}
