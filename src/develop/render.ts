import type { Mosaic } from '../facts/index.ts';
import { areaReducer, fitLongEdge, type Rgb8, type Size, turnUpright, uprightSize } from '../image/index.ts';
import { activeParts, type CompiledLook } from '../look/index.ts';
import { type DisplayLight, displayLight, srgbTable } from './display-light.ts';
import { encodeSamples8 } from './kernels/encode-samples.ts';
import { renderLocal } from './local/render-local.ts';
import { estimateNoise } from './noise-profile.ts';
import { planDevelop } from './plan.ts';
import { planFrame, type RenderSize } from './plan-frame.ts';
import { type NoiseSource, nobodyWatches, type Rendered, type RowWatch } from './rendered.ts';
import { forEachStrip } from './strips.ts';

/**
 * The picture of a mosaic with its look: sRGB, 8 bits, upright. Smaller sizes are reduced by area averaging in linear
 * display light; those of `smallerEdgesPx` (long edges) on the way, from the same light as the picture itself. The mosaic
 * is read, not kept. Rounded to the nearest, no dithering. Widths of local parts are in pixels at full size whatever the
 * size; with geometry, sizes and regions are those of the picture placed. `noise` is asked where the look needs it,
 * `watch` is told of rows from the top.
 * Errors: `raw-too-large`, `region-outside`, `raw-unsupported-mosaic`.
 */
export function renderMosaic(
  mosaic: Mosaic,
  look: CompiledLook,
  size: RenderSize,
  smallerEdgesPx: readonly number[] = [],
  noise: NoiseSource = () => estimateNoise(mosaic),
  watch: RowWatch = nobodyWatches,
): Rendered {
  if (activeParts(look.local).length > 0)
    return renderLocal(mosaic, look, size, smallerEdgesPx, noise, watch);
  const plan = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const light = displayLight(mosaic, plan, frame, look, 'srgb');
  const targets = [frame.target, ...smallerEdgesPx.map((edgePx) => fitLongEdge(frame.target, edgePx))];
  const takers = targets.map((target) => pictureTaker(light, target));
  forEachStrip(light, (rowStart, rowEnd) => {
    light.fill(rowStart, rowEnd);
    for (const { take } of takers) take(rowStart, rowEnd);
    watch(rowEnd, light.heightPx);
  });
  const [picture, ...smaller] = takers.map((taker) => turnUpright(taker.picture, mosaic.orientation));
  if (picture === undefined) throw new Error('a rendering has a picture');
  return {
    picture,
    smaller,
    full: uprightSize(mosaic, mosaic.orientation),
    issues: [...plan.issues, ...look.findings],
  };
}

/** A picture as the sensor lies that grows strip by strip; encoding leaves the strip's light as it is. */
interface PictureTaker {
  readonly picture: Rgb8;
  readonly take: (rowStart: number, rowEnd: number) => void;
}

function pictureTaker({ widthPx, heightPx, kernels }: DisplayLight, target: Size): PictureTaker {
  const data = new Uint8Array(target.widthPx * target.heightPx * 3);
  const picture: Rgb8 = { data, ...target, channels: 3 };
  if (target.widthPx === widthPx && target.heightPx === heightPx) {
    const take: PictureTaker['take'] = (rowStart, rowEnd) =>
      kernels.encode((rowEnd - rowStart) * widthPx, data, rowStart * widthPx * 3);
    return { picture, take };
  }
  const reduce = areaReducer({ widthPx, heightPx }, target, (line, row) => {
    encodeSamples8(line, line.length, srgbTable, data, row * line.length);
  });
  return { picture, take: (rowStart, rowEnd) => reduce(kernels.strip, rowEnd - rowStart) };
}
