import type { Finding, Mosaic } from '../facts/index.ts';
import { areaReducer, fitLongEdge, type Rgb8, type Size, turnUpright } from '../image/index.ts';
import type { CompiledLook } from '../look/index.ts';
import { type DisplayLight, displayLight, leftOut, srgbTable } from './display-light.ts';
import { encodeSamples8 } from './kernels/encode-samples.ts';
import { planDevelop } from './plan.ts';
import { planFrame, type RenderSize } from './plan-frame.ts';
import { forEachStrip } from './strips.ts';

export interface Rendered {
  /** Upright, encoded sRGB. */
  readonly picture: Rgb8;
  /** The same reduced further, for each of `smallerEdgesPx`; never enlarged. */
  readonly smaller: readonly Rgb8[];
  /** Assumptions that had to be made, and parts of the look left out: codes `develop.*`, `look.*`. */
  readonly issues: readonly Finding[];
}

/**
 * The picture of a mosaic with its look: sRGB, 8 bits, upright. Smaller sizes are reduced by area averaging in linear
 * display light; those of `smallerEdgesPx` (long edges) on the way, from the same light as the picture itself. The mosaic
 * is read, not kept. Rounded to the nearest, no dithering.
 * Errors: `raw-too-large`, `region-outside`, `raw-unsupported-mosaic`.
 */
export function renderMosaic(
  mosaic: Mosaic,
  look: CompiledLook,
  size: RenderSize,
  smallerEdgesPx: readonly number[] = [],
): Rendered {
  const plan = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const light = displayLight(mosaic, plan, frame, look, 'srgb');
  const targets = [frame.target, ...smallerEdgesPx.map((edgePx) => fitLongEdge(frame.target, edgePx))];
  const takers = targets.map((target) => pictureTaker(light, target));
  forEachStrip(light, (rowStart, rowEnd) => {
    light.fill(rowStart, rowEnd);
    for (const { take } of takers) take(rowStart, rowEnd);
  });
  const [picture, ...smaller] = takers.map((taker) => turnUpright(taker.picture, mosaic.orientation));
  if (picture === undefined) throw new Error('a rendering has a picture');
  return { picture, smaller, issues: [...plan.issues, ...look.findings, ...leftOut(look)] };
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
