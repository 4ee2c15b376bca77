import { multiplyMatrices, type RgbSpaceName } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { type Rgb16, turnUpright } from '../image/index.ts';
import { cameraLight, cameraWork } from './camera-light.ts';
import { binMosaic } from './kernels/bin-mosaic.ts';
import { encodeSamples16, multiplyPixels } from './kernels/encode-samples.ts';
import { clipStrip } from './kernels/rebuild-highlights.ts';
import { plainCameraKernels } from './plain-kernels.ts';
import { type BinPlan, binNumbers, planDevelop, workingToSpace } from './plan.ts';
import { type FramePlan, planFrame } from './plan-frame.ts';
import type { FillStrip } from './strip-kernels.ts';
import { forEachStrip, stripRows } from './strips.ts';

/**
 * The picture as linear light in a named space: 16 bits, upright, no look, no headroom factor. 65,535 is where the first
 * channel saturates after balance; all channels are cut there (white stays white) and at 0, as is the usual convention
 * of raw decoders' linear output; the lens is left as it is. By the same convention a pixel of half size is its 2x2 block and nothing else.
 * Errors: as `renderMosaic`.
 */
export function linearMosaic(
  { lens: _, ...mosaic }: Mosaic,
  space: RgbSpaceName,
  size: 'half' | 'full',
): { readonly picture: Rgb16; readonly issues: readonly Finding[] } {
  const { bin, toWorking, issues } = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const { widthPx, heightPx } = frame.window;
  const { strip, fill } =
    size === 'half' && mosaic.layout === undefined
      ? binned(mosaic, bin, frame)
      : demosaiced(mosaic, bin, frame);
  const matrix = Float64Array.from(multiplyMatrices(workingToSpace(space), toWorking));
  const data = new Uint16Array(widthPx * heightPx * 3);
  forEachStrip(frame.window, (rowStart, rowEnd) => {
    const pixels = (rowEnd - rowStart) * widthPx;
    fill(rowStart, rowEnd);
    clipStrip(strip, pixels * 3);
    multiplyPixels(strip, pixels, matrix);
    encodeSamples16(strip, pixels * 3, data, rowStart * widthPx * 3);
  });
  const stored: Rgb16 = { data, widthPx, heightPx, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues };
}

/** Balanced camera RGB, strip by strip. */
interface StripSource {
  readonly strip: Float32Array;
  readonly fill: FillStrip;
}

function binned({ values, widthPx }: Mosaic, bin: BinPlan, { window }: FramePlan): StripSource {
  const strip = new Float32Array(stripRows(window) * window.widthPx * 3);
  const numbers = binNumbers(bin);
  return {
    strip,
    fill: (rowStart, rowEnd) => binMosaic(values, widthPx, rowStart, rowEnd, numbers, strip),
  };
}

function demosaiced(mosaic: Mosaic, bin: BinPlan, frame: FramePlan): StripSource {
  const kernels = plainCameraKernels(cameraWork(mosaic, bin, frame));
  return { strip: kernels.strip, fill: cameraLight(mosaic, bin, frame, kernels) };
}
