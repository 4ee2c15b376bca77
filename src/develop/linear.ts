import { multiplyMatrices, type RgbSpaceName } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { type Rgb16, turnUpright } from '../image/index.ts';
import { fullLight, halfLight } from './camera-light.ts';
import { encodeSamples16, multiplyPixels } from './kernels/encode-samples.ts';
import { planDevelop, workingToSpace } from './plan.ts';
import { planFrame } from './plan-frame.ts';
import { forEachStrip, stripRows } from './strips.ts';

/**
 * The picture as linear light in a named space: 16 bits, upright, no look, no headroom factor. 65,535 is where the first
 * channel saturates after balance; all channels are cut there (white stays white) and at 0, as is the usual convention
 * of raw decoders' linear output.
 * Errors: as `renderMosaic`.
 */
export function linearMosaic(
  mosaic: Mosaic,
  space: RgbSpaceName,
  size: 'half' | 'full',
): { readonly picture: Rgb16; readonly issues: readonly Finding[] } {
  const { bin, toWorking, issues } = planDevelop(mosaic);
  const { window } = planFrame(mosaic, size);
  const light = size === 'half' ? halfLight(mosaic, bin, 'clip') : fullLight(mosaic, bin, window, 'clip');
  const { widthPx, heightPx } = light;
  const matrix = Float64Array.from(multiplyMatrices(workingToSpace(space), toWorking));
  const data = new Uint16Array(widthPx * heightPx * 3);
  const strip = new Float32Array(stripRows(light) * widthPx * 3);
  forEachStrip(light, (rowStart, rowEnd) => {
    const pixels = (rowEnd - rowStart) * widthPx;
    light.fill(rowStart, rowEnd, strip);
    multiplyPixels(strip, pixels, matrix);
    encodeSamples16(strip, pixels * 3, data, rowStart * widthPx * 3);
  });
  const stored: Rgb16 = { data, widthPx, heightPx, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues };
}
