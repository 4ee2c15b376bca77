import type { Finding } from '../facts/index.ts';
import { fitLongEdge, type Size } from '../image/index.ts';
import { decodeRaster } from './decode-raster.ts';
import type { RenderAnswer, RenderJob, ResizeJob } from './messages.ts';
import { reducePicture } from './reduce-picture.ts';
import { stopwatch } from './stopwatch.ts';
import { writePicture } from './write-picture.ts';

/** The job `render` for originals that are finished pictures. */
export async function renderRaster(job: RenderJob): Promise<RenderAnswer> {
  const issues: Finding[] = job.look === null ? [] : [{ code: 'develop.look-not-applied', args: {} }];
  return reduceFile(
    job,
    (full) => (job.size === 'half' ? half(full) : fitLongEdge(full, job.size.longEdgePx)),
    issues,
  );
}

/** The job `resize`. */
export function resizeRendering(job: ResizeJob): Promise<RenderAnswer> {
  return reduceFile(job, (full) => fitLongEdge(full, job.longEdgePx), []);
}

async function reduceFile(
  job: Pick<RenderJob, 'path' | 'format' | 'outPath'>,
  sizeFor: (full: Size) => Size,
  issues: readonly Finding[],
): Promise<RenderAnswer> {
  const lap = stopwatch();
  const full = await decodeRaster(job.path);
  const decodeMs = lap();
  const picture = reducePicture(full, sizeFor(full));
  const developMs = lap();
  const bytes = await writePicture(picture, job.format, job.outPath);
  return {
    widthPx: full.widthPx,
    heightPx: full.heightPx,
    renderedWidthPx: picture.widthPx,
    renderedHeightPx: picture.heightPx,
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    issues,
  };
}

function half({ widthPx, heightPx }: Size): Size {
  return { widthPx: Math.max(1, widthPx >> 1), heightPx: Math.max(1, heightPx >> 1) };
}
