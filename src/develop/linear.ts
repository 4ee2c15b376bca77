import { multiplyMatrices, type RgbSpaceName } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { type Rgb16, turnUpright } from '../image/index.ts';
import { cameraLight, cameraWork } from './camera-light.ts';
import { encodeSamples16, multiplyPixels } from './kernels/encode-samples.ts';
import { clipStrip } from './kernels/rebuild-highlights.ts';
import { plainCameraKernels } from './plain-kernels.ts';
import { planDevelop, workingToSpace } from './plan.ts';
import { planFrame } from './plan-frame.ts';
import { forEachStrip } from './strips.ts';

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
  const frame = planFrame(mosaic, size);
  const { widthPx, heightPx } = frame.window;
  const kernels = plainCameraKernels(cameraWork(mosaic, bin, frame));
  const fill = cameraLight(mosaic, bin, frame, kernels);
  const matrix = Float64Array.from(multiplyMatrices(workingToSpace(space), toWorking));
  const data = new Uint16Array(widthPx * heightPx * 3);
  forEachStrip(frame.window, (rowStart, rowEnd) => {
    const pixels = (rowEnd - rowStart) * widthPx;
    fill(rowStart, rowEnd);
    clipStrip(kernels.strip, pixels * 3);
    multiplyPixels(kernels.strip, pixels, matrix);
    encodeSamples16(kernels.strip, pixels * 3, data, rowStart * widthPx * 3);
  });
  const stored: Rgb16 = { data, widthPx, heightPx, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues };
}
