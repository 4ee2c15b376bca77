import { diagonalMatrix, type Matrix3, multiplyMatrices, rgbSpaces } from '../colour/index.ts';
import type { Finding, Mosaic } from '../facts/index.ts';
import { fitLongEdge, type Rgb8, type Size, turnUpright } from '../image/index.ts';
import { averageArea } from '../image/kernels/average-area.ts';
import type { CompiledLook } from '../look/index.ts';
import { encodeTable } from './encode-table.ts';
import { encodeSamples8 } from './kernels/encode-samples.ts';
import { renderLight } from './kernels/render-light.ts';
import { type BinPlan, planDevelop, workingToSpace } from './plan.ts';
import { balancedToScene } from './scene-scale.ts';
import { forEachStrip, halfSize } from './strips.ts';

export interface Rendered {
  /** Upright, encoded sRGB. */
  readonly picture: Rgb8;
  /** Assumptions that had to be made: codes `develop.*`. */
  readonly issues: readonly Finding[];
}

/** What the developed picture is wanted as: half the mosaic's edges, or reduced from that to a long edge in px. */
export type RenderSize = 'half' | { readonly longEdgePx: number };

const srgbTable = encodeTable(rgbSpaces.srgb);
const noCurve = new Float32Array(0);

/**
 * The picture of a mosaic with its look: sRGB, 8 bits, upright, at half size or reduced from that by area averaging in
 * linear display light. Never larger than half size. The mosaic is read, not kept. Rounded to the nearest, no dithering.
 */
export function renderHalf(mosaic: Mosaic, look: CompiledLook, size: RenderSize): Rendered {
  const plan = planDevelop(mosaic);
  const light = lightRenderer(mosaic, plan.toWorking, look);
  const half = halfSize(mosaic);
  const target = size === 'half' ? half : fitLongEdge(half, size.longEdgePx);
  const bytes = new Uint8Array(target.widthPx * target.heightPx * 3);

  if (target.widthPx === half.widthPx) {
    forEachStrip(mosaic, plan.bin, 'rebuild', (strip, rowStart, rowEnd) => {
      const samples = (rowEnd - rowStart) * half.widthPx * 3;
      light(strip, samples / 3);
      encodeSamples8(strip, samples, srgbTable, bytes, rowStart * half.widthPx * 3);
    });
  } else {
    const reduced = reduceStrips(mosaic, half, target, plan.bin, light);
    encodeSamples8(reduced, reduced.length, srgbTable, bytes, 0);
  }
  const stored: Rgb8 = { data: bytes, ...target, channels: 3 };
  return { picture: turnUpright(stored, mosaic.orientation), issues: plan.issues };
}

type LightRenderer = (rgb: Float32Array, pixels: number) => void;

function reduceStrips(
  mosaic: Mosaic,
  half: Size,
  target: Size,
  bin: BinPlan,
  light: LightRenderer,
): Float32Array {
  const reduced = new Float32Array(target.widthPx * target.heightPx * 3);
  forEachStrip(mosaic, bin, 'rebuild', (strip, rowStart, rowEnd) => {
    light(strip, (rowEnd - rowStart) * half.widthPx);
    averageArea(
      strip,
      half.widthPx,
      half.heightPx,
      rowStart,
      rowEnd,
      reduced,
      target.widthPx,
      target.heightPx,
    );
  });
  return reduced;
}

/** Binds everything that does not change from strip to strip. */
function lightRenderer(mosaic: Mosaic, toWorking: Matrix3, look: CompiledLook): LightRenderer {
  const gain = balancedToScene(mosaic.baselineExposureEv) * look.gain;
  const toScene = Float64Array.from(multiplyMatrices(diagonalMatrix([gain, gain, gain]), toWorking));
  const toOutput = Float64Array.from(workingToSpace('srgb'));
  const luminance = Float64Array.from(rgbSpaces.srgb.toXyz.slice(3, 6));
  const curve = look.curve;
  return (rgb, pixels) => {
    renderLight(
      rgb,
      pixels,
      toScene,
      curve?.samples ?? noCurve,
      curve?.sceneWhite ?? 1,
      curve?.slopeAtBlack ?? 1,
      toOutput,
      luminance,
    );
  };
}
