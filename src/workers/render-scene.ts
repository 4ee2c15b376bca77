import { linearRgbToRgb, rgbSpaces } from '../colour/index.ts';
import {
  clipRegion,
  onTargetBalance,
  type RenderSize,
  scaledSize,
  sceneMosaic,
  withMended,
} from '../develop/index.ts';
import { decodeCodes8 } from '../develop/kernels/decode-codes.ts';
import { multiplyPixels } from '../develop/kernels/encode-samples.ts';
import {
  areaReducer,
  cutOut,
  type ExrNotes,
  type ExrPrimaries,
  encodeExr,
  fitLongEdge,
  type Rgb8,
  type RgbFloat,
  type Size,
  uprightSize,
} from '../image/index.ts';
import { toHalves } from '../image/kernels/half-floats.ts';
import { decodeRaster } from './decode-raster.ts';
import type { RasterSource } from './raster-source.ts';
import type { RawSource } from './raw-source.ts';
import type { RenderAnswer, SceneJob, SceneSize } from './render-messages.ts';
import { corrected, hotPixelsOf, profileOf } from './render-raw.ts';
import { stopwatch } from './stopwatch.ts';
import { writeWhole } from './write-picture.ts';

interface SceneMade {
  readonly picture: RgbFloat;
  readonly full: Size;
  readonly notes: ExrNotes;
  readonly issues: RenderAnswer['issues'];
  readonly decodeMs: number;
}

/** The job `scene`. */
export async function renderScene(
  raws: RawSource,
  rasters: RasterSource,
  job: SceneJob,
): Promise<RenderAnswer> {
  const lap = stopwatch();
  const made = await (job.kind === 'raw' ? ofRaw(raws, job, lap) : ofRaster(rasters, job, lap));
  const developMs = lap();
  const bytes = await writeWhole(job.outPath, exrOf(made, job));
  return {
    ...made.full,
    renderedWidthPx: made.picture.widthPx,
    renderedHeightPx: made.picture.heightPx,
    bytes,
    timings: { decodeMs: made.decodeMs, developMs, encodeMs: lap() },
    issues: made.issues,
  };
}

async function ofRaw(raws: RawSource, job: SceneJob, lap: () => number): Promise<SceneMade> {
  const { mosaic: opened, issues } = await raws.open(job.path, job.hints);
  const bare = corrected(opened);
  const decodeMs = lap();
  const onTarget = job.balance != null;
  const mosaic = job.balance == null ? bare : onTargetBalance(bare, job.balance);
  const full = uprightSize({ widthPx: mosaic.widthPx, heightPx: mosaic.heightPx }, mosaic.orientation);
  const scene = withMended(bare, hotPixelsOf(bare), () => sceneMosaic(mosaic, sizeOf(job.size, full)));
  const { asShotWhite } = profileOf(mosaic, onTarget);
  return {
    picture: scene.picture,
    full,
    notes: {
      ...(asShotWhite === null ? {} : { asShotX: asShotWhite[0], asShotY: asShotWhite[1] }),
      balancedOn: onTarget ? 'target' : 'as-shot',
    },
    issues: [...issues, ...scene.issues],
    decodeMs,
  };
}

async function ofRaster(rasters: RasterSource, job: SceneJob, lap: () => number): Promise<SceneMade> {
  const isRegion = typeof job.size === 'object' && 'region' in job.size;
  const full = await (isRegion ? rasters.open(job.path) : decodeRaster(job.path));
  const decodeMs = lap();
  const { part, target } = partOf(full, sizeOf(job.size, full));
  const { widthPx, heightPx } = full;
  const notes = { balancedOn: 'as-shot' };
  return { picture: lightOf(part, target), full: { widthPx, heightPx }, notes, issues: [], decodeMs };
}

/** Of a portrait, which is higher than wide, px. */
const longEdgeMaxPx = 4096;

function sizeOf(size: SceneSize, full: Size): RenderSize {
  if (typeof size !== 'object' || !('widthPx' in size)) return size;
  const longEdgePx = size.widthPx * Math.max(1, full.heightPx / full.widthPx);
  return { longEdgePx: Math.min(longEdgeMaxPx, Math.round(longEdgePx)) };
}

function partOf(full: Rgb8, size: RenderSize): { readonly part: Rgb8; readonly target: Size } {
  if (size === 'full') return { part: full, target: full };
  if (size === 'half') {
    const half = (edgePx: number): number => Math.max(1, edgePx >> 1);
    return { part: full, target: { widthPx: half(full.widthPx), heightPx: half(full.heightPx) } };
  }
  if ('longEdgePx' in size) return { part: full, target: fitLongEdge(full, size.longEdgePx) };
  const part = cutOut(full, clipRegion(size.region, full));
  return { part, target: scaledSize(part, size.scale ?? 1) };
}

const toLinear = Float32Array.from({ length: 256 }, (_, code) => rgbSpaces.srgb.transfer.decode(code / 255));
const toWorking = Float64Array.from(linearRgbToRgb(rgbSpaces.srgb, rgbSpaces.rec2020));

/** What an sRGB picture shows, as linear Rec. 2020: row by row, so that memory is a row beside the result. */
function lightOf({ data, widthPx, heightPx }: Rgb8, target: Size): RgbFloat {
  const out = new Float32Array(target.widthPx * target.heightPx * 3);
  const reduce = areaReducer({ widthPx, heightPx }, target, (line, row) => out.set(line, row * line.length));
  const strip = new Float32Array(widthPx * 3);
  for (let row = 0; row < heightPx; row++) {
    decodeCodes8(data, row * widthPx * 3, widthPx * 3, toLinear, strip);
    multiplyPixels(strip, widthPx, toWorking);
    reduce(strip, 1);
  }
  return { data: out, widthPx: target.widthPx, heightPx: target.heightPx, channels: 3 };
}

/** Rec. 2020 and D65 (ITU-R BT.2020-2, table 3). */
const primaries: ExrPrimaries = [0.708, 0.292, 0.17, 0.797, 0.131, 0.046, 0.3127, 0.329];

function exrOf({ picture, full, notes }: SceneMade, { kind, size }: SceneJob): Uint8Array {
  const { widthPx, heightPx } = picture;
  const halves = new Uint16Array(picture.data.length);
  toHalves(picture.data, 0, picture.data.length, halves, 0);
  const region = typeof size === 'object' && 'region' in size && (size.scale ?? 1) === 1 ? size.region : null;
  const whole = region === null ? { widthPx, heightPx } : full;
  const at = region === null ? { leftPx: 0, topPx: 0 } : clipRegion(region, full);
  const told = { ...notes, light: kind, fullWidth: full.widthPx, fullHeight: full.heightPx };
  return encodeExr(
    { widthPx, heightPx, halves, leftPx: at.leftPx, topPx: at.topPx, whole, notes: told },
    primaries,
  );
}
