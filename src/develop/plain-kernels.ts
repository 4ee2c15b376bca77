import { halfRows } from './camera-light.ts';
import { encodeSamples8 } from './kernels/encode-samples.ts';
import { renderLight } from './kernels/render-light.ts';
import type { StripKernels, StripWork } from './strip-kernels.ts';

/** The kernels in TypeScript. */
export function plainKernels({ values, widthPx, bin, table, light, pixelsMax }: StripWork): StripKernels {
  const strip = new Float32Array(pixelsMax * 3);
  const fill = halfRows(values, widthPx, bin, 'rebuild');
  const toScene = Float64Array.from(light.toScene);
  const toOutput = Float64Array.from(light.toOutput);
  const luminance = Float64Array.from(light.luminance);
  const { samples, sceneWhite, slopeAtBlack } = light.curve ?? noCurve;
  return {
    strip,
    bin: (rowStart, rowEnd) => fill(rowStart, rowEnd, strip),
    light: (pixels) =>
      renderLight(strip, pixels, toScene, samples, sceneWhite, slopeAtBlack, toOutput, luminance),
    encode: (pixels, out, outOffset) => encodeSamples8(strip, pixels * 3, table, out, outOffset),
  };
}

const noCurve = { samples: new Float32Array(0), sceneWhite: 1, slopeAtBlack: 1 };
