/** One frame: shutter, sensor, file. */
import type { EpochMs } from '../base/index.ts';
import { exifTimeAt } from './clock.ts';
import { settings } from './core/camera-model.ts';
import type { FrameRecipe } from './core/frame-plan.ts';
import { type FrameSize, frameSize } from './core/frame-size.ts';
import { type FrameTruth, frameTruth } from './core/frame-truth.ts';
import { writeStandInRaw } from './core/raw-writer.ts';
import { lensSigmaPx, orientationOf } from './core/set-facts.ts';
import { targetPatches } from './core/target-place.ts';
import { encodeEmbedded } from './embedded-jpeg.ts';
import { createRenderCrew } from './render-crew.ts';
import { Studio } from './studio.ts';

export interface Frame {
  /** A whole raw file. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly truth: FrameTruth;
  /** The values in the file, for a check that a decoder gives back exactly these. RGGB, black not subtracted. */
  readonly mosaic: Uint16Array<ArrayBuffer>;
}

export interface RenderFrameOptions extends Partial<FrameRecipe> {
  /** Default 0.3: some two seconds of processor time; 0.05 to 0.1 is enough for most tests. */
  readonly sizeMegapixels?: number;
  /** When the shutter fired. Default 2026-10-01T08:00:00Z, so that two calls give the same bytes. */
  readonly shutterMs?: EpochMs;
}

const defaultShutterMs = 1_790_841_600_000;

/**
 * One raw file without a camera around it: renders on the caller's thread, keeps nothing. For tests and small sizes;
 * the same options give the same bytes.
 */
export async function renderFrame(options: RenderFrameOptions = {}): Promise<Frame> {
  const { sizeMegapixels = 0.3, shutterMs = defaultShutterMs, ...recipe } = options;
  const size = frameSize(sizeMegapixels);
  const studio = new Studio({
    crew: createRenderCrew(0),
    store: null,
    size,
    signal: new AbortController().signal,
    onProgress: () => {},
  });
  return await shootFrame(studio, size, { ...plainRecipe, ...recipe }, shutterMs);
}

const plainRecipe: FrameRecipe = {
  shot: 'mug',
  purpose: 'picture',
  exposureEv: 0,
  offsetPx: [0, 0],
  addedSigmaPx: 0,
  noiseSeed: 1,
  noise: true,
  faults: [],
};

export async function shootFrame(
  studio: Studio,
  size: FrameSize,
  recipe: FrameRecipe,
  shutterMs: EpochMs,
): Promise<Frame> {
  const { mosaic, picture } = await studio.expose(recipe);
  const embedded = await encodeEmbedded(picture);
  const bytes = writeStandInRaw({
    mosaic,
    widthPx: size.widthPx,
    heightPx: size.heightPx,
    ...embedded,
    orientation: orientationOf(recipe),
    shutter: exifTimeAt(shutterMs),
    settings,
  });
  const truth = frameTruth(recipe, size, lensSigmaPx, targetPatches(recipe, size));
  return { bytes, truth, mosaic };
}
