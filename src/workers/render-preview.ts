import { clipRegion, scaledSize } from '../develop/index.ts';
import { cutOut, type Region, type Rgb8, type Size } from '../image/index.ts';
import type { RasterSource } from './raster-source.ts';
import { reducePicture } from './reduce-picture.ts';
import type { PreviewJob, RenderAnswer } from './render-messages.ts';
import { stopwatch } from './stopwatch.ts';
import { writePicture } from './write-picture.ts';

/** The job `preview`. */
export async function renderPreview(rasters: RasterSource, job: PreviewJob): Promise<RenderAnswer> {
  const { full, region, scale, orientation } = job;
  const lap = stopwatch();
  const preview = await rasters.open(job.path, {
    mayBeCut: true,
    ...(orientation === null ? {} : { orientation }),
  });
  const decodeMs = lap();
  const picture = partOf(preview, full, clipRegion(region, full), scale);
  const developMs = lap();
  const bytes = await writePicture(picture, job.format, job.outPath);
  return {
    ...full,
    renderedWidthPx: picture.widthPx,
    renderedHeightPx: picture.heightPx,
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    issues: [],
  };
}

/** The whole pixels of the preview that the region touches, reduced where they are finer than wanted. */
function partOf(preview: Rgb8, full: Size, region: Region, scale: number): Rgb8 {
  const shown = middleOfShape(preview, full);
  const previewPerFull = shown.widthPx / full.widthPx;
  const part = cutOut(
    preview,
    clipRegion(
      {
        leftPx: shown.leftPx + region.leftPx * previewPerFull,
        topPx: shown.topPx + region.topPx * previewPerFull,
        widthPx: region.widthPx * previewPerFull,
        heightPx: region.heightPx * previewPerFull,
      },
      preview,
    ),
  );
  return reducePicture(part, scaledSize(part, Math.min(1, scale / previewPerFull)));
}

/** Cameras pad small previews with black bars: the middle that has the picture's shape, in fractions of pixels. */
function middleOfShape(preview: Size, shape: Size): Region {
  const wanted = shape.widthPx / shape.heightPx;
  const widthPx = Math.min(preview.widthPx, preview.heightPx * wanted);
  const heightPx = Math.min(preview.heightPx, preview.widthPx / wanted);
  return {
    leftPx: (preview.widthPx - widthPx) / 2,
    topPx: (preview.heightPx - heightPx) / 2,
    widthPx,
    heightPx,
  };
}
