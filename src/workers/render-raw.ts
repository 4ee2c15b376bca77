import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import { linearHalf, type RawDecoder, renderHalf } from '../develop/index.ts';
import type { Mosaic } from '../facts/index.ts';
import { encodeTiff, type Size, uprightSize } from '../image/index.ts';
import { compileLook, neutralLook } from '../look/index.ts';
import { decodeRaw } from './decode-raw.ts';
import type { LinearJob, RenderAnswer, RenderJob } from './messages.ts';
import { stopwatch } from './stopwatch.ts';
import { writePicture, writeWhole } from './write-picture.ts';

/** The job `render` for raw originals. */
export async function renderRaw(decoder: RawDecoder, job: RenderJob): Promise<RenderAnswer> {
  const lap = stopwatch();
  const { mosaic, issues } = await decodeRaw(decoder, job.path, job.hints);
  const decodeMs = lap();
  const rendered = renderHalf(mosaic, compileLook(job.look ?? neutralLook), job.size);
  const developMs = lap();
  const bytes = await writePicture(rendered.picture, job.format, job.outPath);
  return {
    ...sizes(mosaic, rendered.picture),
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    issues: [...issues, ...rendered.issues],
  };
}

/** The job `linear`. */
export async function renderLinear(decoder: RawDecoder, job: LinearJob): Promise<RenderAnswer> {
  const lap = stopwatch();
  const { mosaic, issues } = await decodeRaw(decoder, job.path, job.hints);
  const decodeMs = lap();
  const linear = linearHalf(mosaic, job.space);
  const developMs = lap();
  const profile = encodeIccProfile(rgbSpaces[job.space], { linear: true });
  const bytes = await writeWhole(job.outPath, encodeTiff(linear.picture, profile));
  return {
    ...sizes(mosaic, linear.picture),
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    issues: [...issues, ...linear.issues],
  };
}

function sizes(mosaic: Mosaic, picture: Size): Omit<RenderAnswer, 'bytes' | 'timings' | 'issues'> {
  return {
    ...uprightSize({ widthPx: mosaic.widthPx, heightPx: mosaic.heightPx }, mosaic.orientation),
    renderedWidthPx: picture.widthPx,
    renderedHeightPx: picture.heightPx,
  };
}
