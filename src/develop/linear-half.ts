import { multiplyMatrices, type RgbSpaceName } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { type Rgb16, turnUpright } from '../image/index.ts';
import { encodeSamples16, multiplyPixels } from './kernels/encode-samples.ts';
import { planDevelop, workingToSpace } from './plan.ts';
import { forEachStrip, halfSize } from './strips.ts';

/**
 * The half-size picture as linear light in a named space: 16 bits, upright, no look, no headroom factor. 65,535 is where
 * the first channel saturates after balance; all channels are cut there (white stays white) and at 0, as is the usual
 * convention of raw decoders' linear output.
 */
export function linearHalf(
  mosaic: Mosaic,
  space: RgbSpaceName,
): { readonly picture: Rgb16; readonly issues: readonly Finding[] } {
  const plan = planDevelop(mosaic);
  const matrix = Float64Array.from(multiplyMatrices(workingToSpace(space), plan.toWorking));
  const half = halfSize(mosaic);
  const data = new Uint16Array(half.widthPx * half.heightPx * 3);
  forEachStrip(mosaic, plan.bin, 'clip', (strip, rowStart, rowEnd) => {
    const pixels = (rowEnd - rowStart) * half.widthPx;
    multiplyPixels(strip, pixels, matrix);
    encodeSamples16(strip, pixels * 3, data, rowStart * half.widthPx * 3);
  });
  const stored: Rgb16 = { data, ...half, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues: plan.issues };
}
