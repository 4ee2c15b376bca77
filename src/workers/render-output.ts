import { linearRgbToRgb, rgbSpaces } from '../colour/index.ts';
import { outputTaker, placedLight, renderOutput, withMended } from '../develop/index.ts';
import { multiplyPixels } from '../develop/kernels/encode-samples.ts';
import type { Finding } from '../facts/index.ts';
import { cutOut, type Rgb16, type Size } from '../image/index.ts';
import type { Geometry } from '../look/index.ts';
import { hasGeometry } from './has-geometry.ts';
import { jobWatch } from './job-board.ts';
import { type OutputWay, type OutputWish, outputWay } from './output-way.ts';
import type { RawSource } from './raw-source.ts';
import type { RenderAnswer, RenderJob } from './render-messages.ts';
import { frameOfRaster, looklessIssues } from './render-raster.ts';
import { openForLook } from './render-raw.ts';
import { stopwatch } from './stopwatch.ts';
import { decodeWide, wideSpace } from './wide-raster.ts';
import { writeOutput } from './write-output.ts';

/** A job `render` whose space and depth were chosen. */
export interface OutputJob extends RenderJob {
  readonly output: OutputWish;
}

/** The job `render` for raw originals in a chosen space. Errors: those of `renderRaw`, `bad-profile`. */
export async function renderRawOutput(raws: RawSource, job: OutputJob): Promise<RenderAnswer> {
  const way = outputWay(job.output);
  const lap = stopwatch();
  const watch = jobWatch(job.board);
  watch.begin('reading');
  const { bare, mosaic, issues, look, hot, noise, colours } = await openForLook(raws, job);
  watch.begin('rendering');
  const decodeMs = lap();
  const rendered = withMended(bare, hot, () =>
    renderOutput(mosaic, look, job.size, way.rendered, noise, watch.rows),
  );
  const developMs = lap();
  watch.begin('writing');
  const bytes = await writeOutput(rendered.picture, way, job.output.depth, job.format, job.outPath);
  return {
    ...answerSizes(rendered.full, rendered.picture),
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    colours,
    issues: [...issues, ...rendered.issues],
  };
}

/** Rows brought to light at a time; see `reducePicture`. */
const stripRows = 4;

/** The job `render` for finished pictures in a chosen space. Errors: those of `renderRaster`, `bad-profile`. */
export async function renderRasterOutput(job: OutputJob): Promise<RenderAnswer> {
  const issues = looklessIssues(job.look);
  const way = outputWay(job.output);
  const lap = stopwatch();
  const full = await decodeWide(job.path);
  const decodeMs = lap();
  if (job.look !== null && hasGeometry(job.look)) {
    return renderPlacedOutput(job, way, job.look.geometry, full, decodeMs, issues);
  }
  const { window, target } = frameOfRaster(full, job.size);
  const part = window === null ? full : cutOut(full, window);
  const { picture, take } = outputTaker(part, target, way.rendered);
  const rowSamples = part.widthPx * 3;
  const strip = new Float32Array(stripRows * rowSamples);
  for (let row = 0; row < part.heightPx; row += stripRows) {
    const rows = Math.min(stripRows, part.heightPx - row);
    toWorkingLight(part, row, rows, strip);
    take(strip, row, row + rows);
  }
  const developMs = lap();
  const bytes = await writeOutput(picture, way, job.output.depth, job.format, job.outPath);
  return { ...answerSizes(full, picture), bytes, timings: { decodeMs, developMs, encodeMs: lap() }, issues };
}

async function renderPlacedOutput(
  job: OutputJob,
  way: OutputWay,
  geometry: Geometry,
  whole: Rgb16,
  decodeMs: number,
  issues: readonly Finding[],
): Promise<RenderAnswer> {
  const lap = stopwatch();
  const light = placedLight(whole, geometry, job.size, ({ leftPx, topPx, widthPx, heightPx }) => {
    const out = new Float32Array(widthPx * heightPx * 3);
    for (let row = 0; row < heightPx; row++) {
      const from = ((topPx + row) * whole.widthPx + leftPx) * 3;
      wideToWorkingLight(whole.data, from, widthPx, out.subarray(row * widthPx * 3));
    }
    return out;
  });
  const { picture, take } = outputTaker(light.window, light.target, way.rendered);
  light.forEachBand(take);
  const developMs = lap();
  const bytes = await writeOutput(picture, way, job.output.depth, job.format, job.outPath);
  const timings = { decodeMs, developMs, encodeMs: lap() };
  return { ...answerSizes(light.full, picture), bytes, timings, issues: [...issues, ...light.issues] };
}

const wideToLinear = Float32Array.from({ length: 65_536 }, (_, code) =>
  wideSpace.transfer.decode(code / 65_535),
);
const wideToWorking = Float64Array.from(linearRgbToRgb(wideSpace, rgbSpaces.rec2020));

/** Rows of a picture in the wide space as linear Rec.2020, at the start of `strip`. */
function toWorkingLight(picture: Rgb16, rowStart: number, rows: number, strip: Float32Array): void {
  wideToWorkingLight(picture.data, rowStart * picture.widthPx * 3, rows * picture.widthPx, strip);
}

/** Pixels in the wide space as linear Rec.2020, at the start of `out`. */
function wideToWorkingLight(data: Uint16Array, from: number, pixels: number, out: Float32Array): void {
  for (let index = 0; index < pixels * 3; index++) out[index] = wideToLinear[data[from + index] ?? 0] ?? 0;
  multiplyPixels(out, pixels, wideToWorking);
}

function answerSizes(
  full: Size,
  picture: Size,
): Pick<RenderAnswer, 'widthPx' | 'heightPx' | 'renderedWidthPx' | 'renderedHeightPx'> {
  return {
    widthPx: full.widthPx,
    heightPx: full.heightPx,
    renderedWidthPx: picture.widthPx,
    renderedHeightPx: picture.heightPx,
  };
}
