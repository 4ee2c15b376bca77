import { encodeIccProfile, rgbSpaces } from '../colour/index.ts';
import {
  type ColourSource,
  correctSamples,
  estimateNoise,
  findHotPixels,
  linearMosaic,
  type MendedPixel,
  type NoiseProfile,
  type NoiseSource,
  onTargetBalance,
  renderMosaic,
  withMended,
} from '../develop/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { encodeTiff, type Size, uprightSize } from '../image/index.ts';
import {
  activeParts,
  type CompiledLook,
  type LookProfile,
  neutralLook,
  unknownProfile,
} from '../look/index.ts';
import { compiledFor } from './compiled-looks.ts';
import { jobWatch } from './job-board.ts';
import type { RawSource } from './raw-source.ts';
import type { LensWish, LinearJob, RenderAnswer, RenderJob } from './render-messages.ts';
import { stopwatch } from './stopwatch.ts';
import { screenFormat, writePicture, writeSmaller, writeWhole } from './write-picture.ts';

/** The job `render` for raw originals. */
export async function renderRaw(raws: RawSource, job: RenderJob): Promise<RenderAnswer> {
  const lap = stopwatch();
  const watch = jobWatch(job.board);
  watch.begin('reading');
  const { bare, mosaic, issues, look, hot, noise, colours } = await openForLook(raws, job);
  watch.begin('rendering');
  const decodeMs = lap();
  const also = job.also ?? [];
  const edges = also.map(({ longEdgePx }) => longEdgePx);
  const rendered = withMended(bare, hot, () =>
    renderMosaic(mosaic, look, job.size, edges, noise, watch.rows),
  );
  const developMs = lap();
  watch.begin('writing');
  await writeSmaller(rendered.smaller, also);
  const bytes = await writePicture(rendered.picture, screenFormat(job.format), job.outPath);
  return {
    ...rendered.full,
    ...originalOf(mosaic, look),
    renderedWidthPx: rendered.picture.widthPx,
    renderedHeightPx: rendered.picture.heightPx,
    bytes,
    timings: { decodeMs, developMs, encodeMs: lap() },
    colours,
    issues: [...issues, ...rendered.issues],
  };
}

/** Told where the look's geometry shows another picture than the whole upright one. */
function originalOf(
  { widthPx, heightPx, orientation }: Mosaic,
  { local }: CompiledLook,
): Pick<RenderAnswer, 'original'> {
  if (!activeParts(local).includes('geometry')) return {};
  return { original: uprightSize({ widthPx, heightPx }, orientation) };
}

/** A raw as its rendering takes it. */
export interface OpenRaw {
  /** As decoded; samples are mended in it. */
  readonly bare: Mosaic;
  /** The same samples, balanced as the job wants it. */
  readonly mosaic: Mosaic;
  readonly hot: readonly MendedPixel[];
  readonly noise: NoiseSource;
  readonly look: CompiledLook;
  readonly colours: ColourSource | 'target';
  readonly issues: readonly Finding[];
}

export async function openForLook(raws: RawSource, job: RenderJob): Promise<OpenRaw> {
  const { mosaic: opened, colours, issues } = await raws.open(job.path, job.hints);
  const bare = lensAsWished(corrected(opened), job.lens ?? 'file');
  const onTarget = job.balance != null;
  const mosaic = job.balance == null ? bare : onTargetBalance(bare, job.balance);
  const look = compiledFor(job.look ?? neutralLook, profileOf(mosaic, onTarget));
  const { hot, noise } = known(bare);
  return { bare, mosaic, hot, noise: () => noise, look, colours: onTarget ? 'target' : colours, issues };
}

/** What is told of a frame from its samples alone. */
interface Known {
  /** Of the bare mosaic, so that every part of a frame is rendered by the same figures. */
  readonly noise: NoiseProfile | null;
  readonly hot: readonly MendedPixel[];
}

/** The samples are the same ones. */
function lensAsWished({ lens, ...mosaic }: Mosaic, wish: LensWish): Mosaic {
  if (wish === 'file') return lens === undefined ? mosaic : { ...mosaic, lens };
  if (wish === 'none' || wish.steps.length === 0) return mosaic;
  const { widthPx, heightPx } = mosaic;
  return {
    ...mosaic,
    lens: { area: { widthPx, heightPx }, leftPx: 0, topPx: 0, samples: [], steps: wish.steps },
  };
}

/** The maker's gain maps change every sample; parts of one frame are asked for many times. */
const evened = new WeakMap<Mosaic, Mosaic>();

export function corrected(mosaic: Mosaic): Mosaic {
  const known = evened.get(mosaic) ?? correctSamples(mosaic);
  evened.set(mosaic, known);
  return known;
}

/** Parts of one frame are asked for many times, and finding takes a look at every sample. */
const knownOf = new WeakMap<Mosaic, Known>();

function known(mosaic: Mosaic): Known {
  const before = knownOf.get(mosaic);
  if (before !== undefined) return before;
  const noise = estimateNoise(mosaic);
  const found = { noise, hot: findHotPixels(mosaic, noise) };
  knownOf.set(mosaic, found);
  return found;
}

export function hotPixelsOf(mosaic: Mosaic): readonly MendedPixel[] {
  return known(mosaic).hot;
}

/** What a look is told of the picture. Balanced on a target, the greys of that are neutral already. */
export function profileOf({ asShotWhite }: Mosaic, onTarget: boolean): LookProfile {
  const targetNeutral = onTarget ? ([1, 1, 1] as const) : null;
  return { ...unknownProfile, asShotWhite: asShotWhite ?? null, targetNeutral };
}

/** The job `linear`. */
export async function renderLinear(raws: RawSource, job: LinearJob): Promise<RenderAnswer> {
  const lap = stopwatch();
  const { mosaic, issues } = await raws.open(job.path, job.hints);
  const decodeMs = lap();
  const linear = linearMosaic(mosaic, job.space, job.size ?? 'half');
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
