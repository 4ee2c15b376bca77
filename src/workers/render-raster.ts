import { rgbSpaces } from '../colour/index.ts';
import { bandTaker, clipRegion, placedLight, scaledSize } from '../develop/index.ts';
import { decodeCodes8 } from '../develop/kernels/decode-codes.ts';
import type { Finding } from '../facts/index.ts';
import { cutOut, fitLongEdge, type Region, type Rgb8, type Size } from '../image/index.ts';
import type { Look } from '../look/index.ts';
import { decodeRaster } from './decode-raster.ts';
import { hasGeometry } from './has-geometry.ts';
import type { RasterSource } from './raster-source.ts';
import { reducePicture } from './reduce-picture.ts';
import type {
  OutputFormat,
  RenderAnswer,
  RenderJob,
  ResizeJob,
  SmallerRendering,
} from './render-messages.ts';
import { stopwatch } from './stopwatch.ts';
import { screenFormat, writePicture, writeSmaller } from './write-picture.ts';

/** The job `render` for originals that are finished pictures. */
export async function renderRaster(rasters: RasterSource, job: RenderJob): Promise<RenderAnswer> {
  const issues = looklessIssues(job.look);
  // One region is followed by its neighbours; any other size is wanted once.
  const isRegion = typeof job.size === 'object' && 'region' in job.size;
  const full = (): Promise<Rgb8> => (isRegion ? rasters.open(job.path) : decodeRaster(job.path));
  if (job.look !== null && hasGeometry(job.look)) return renderPlaced(job, job.look.geometry, full, issues);
  return renderFile(job, full, job.size, job.also ?? [], issues);
}

/** What is said of a look that a finished picture was to be rendered with. */
export function looklessIssues(look: Look | null): readonly Finding[] {
  if (look === null) return [];
  return [{ code: hasGeometry(look) ? 'develop.only-geometry' : 'develop.look-not-applied', args: {} }];
}

async function renderPlaced(
  job: RenderJob,
  geometry: Look['geometry'],
  decode: () => Promise<Rgb8>,
  issues: readonly Finding[],
): Promise<RenderAnswer> {
  const lap = stopwatch();
  const whole = await decode();
  const decodeMs = lap();
  const light = placedLight(whole, geometry, job.size, windowsOf(whole));
  const { picture, take } = bandTaker(light.window, light.target);
  light.forEachBand((band, rowStart, rowEnd) => take(band, rowEnd - rowStart));
  const also = job.also ?? [];
  const smaller = also.map(({ longEdgePx }) => reducePicture(picture, fitLongEdge(picture, longEdgePx)));
  const developMs = lap();
  await writeSmaller(smaller, also);
  const bytes = await writePicture(picture, screenFormat(job.format), job.outPath);
  return {
    ...light.full,
    renderedWidthPx: picture.widthPx,
    renderedHeightPx: picture.heightPx,
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    issues: [...issues, ...light.issues],
  };
}

const toLinear = Float32Array.from({ length: 256 }, (_, code) => rgbSpaces.srgb.transfer.decode(code / 255));

/** Linear light of windows of an sRGB picture. */
function windowsOf({ data, widthPx }: Rgb8): (window: Region) => Float32Array {
  return (window) => {
    const rowSamples = window.widthPx * 3;
    const out = new Float32Array(rowSamples * window.heightPx);
    for (let row = 0; row < window.heightPx; row++) {
      const from = ((window.topPx + row) * widthPx + window.leftPx) * 3;
      decodeCodes8(data, from, rowSamples, toLinear, out.subarray(row * rowSamples, (row + 1) * rowSamples));
    }
    return out;
  };
}

/** The job `resize`. */
export function resizeRendering(job: ResizeJob): Promise<RenderAnswer> {
  const full = (): Promise<Rgb8> => decodeRaster(job.path, { isOurs: true });
  return renderFile(job, full, { longEdgePx: job.longEdgePx }, [], []);
}

async function renderFile(
  job: { readonly format: OutputFormat; readonly outPath: string },
  decode: () => Promise<Rgb8>,
  size: RenderJob['size'],
  also: readonly SmallerRendering[],
  issues: readonly Finding[],
): Promise<RenderAnswer> {
  const lap = stopwatch();
  const full = await decode();
  const decodeMs = lap();
  const picture = pictureOf(full, size);
  const smaller = also.map(({ longEdgePx }) => reducePicture(picture, fitLongEdge(picture, longEdgePx)));
  const developMs = lap();
  await writeSmaller(smaller, also);
  const bytes = await writePicture(picture, screenFormat(job.format), job.outPath);
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

function pictureOf(full: Rgb8, size: RenderJob['size']): Rgb8 {
  const { window, target } = frameOfRaster(full, size);
  return reducePicture(window === null ? full : cutOut(full, window), target);
}

/** The part of a finished picture that is wanted (null: all of it), and what it is reduced to. */
export function frameOfRaster(
  full: Size,
  size: RenderJob['size'],
): { readonly window: Region | null; readonly target: Size } {
  if (size === 'full') return { window: null, target: sizeOf(full) };
  if (size === 'half') return { window: null, target: half(full) };
  if (!('region' in size)) return { window: null, target: fitLongEdge(full, size.longEdgePx) };
  const window = clipRegion(size.region, full);
  return { window, target: scaledSize(window, size.scale ?? 1) };
}

function sizeOf({ widthPx, heightPx }: Size): Size {
  return { widthPx, heightPx };
}

function half({ widthPx, heightPx }: Size): Size {
  return { widthPx: Math.max(1, widthPx >> 1), heightPx: Math.max(1, heightPx >> 1) };
}
