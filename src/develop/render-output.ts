import type { Finding, Mosaic } from '../facts/index.ts';
import { areaReducer, type Rgb8, type Rgb16, type Size, turnUpright, uprightSize } from '../image/index.ts';
import { activeParts, type CompiledLook } from '../look/index.ts';
import { displayLight } from './display-light.ts';
import { encodeThrough } from './kernels/encode-through.ts';
import { mapGamut } from './kernels/map-gamut.ts';
import { localLight } from './local/local-light.ts';
import { estimateNoise } from './noise-profile.ts';
import { encodeCurve, gamutNumbers, type OutputSpace } from './output-space.ts';
import { planDevelop } from './plan.ts';
import { planFrame, type RenderSize } from './plan-frame.ts';
import { type NoiseSource, nobodyWatches, type RowWatch } from './rendered.ts';
import { forEachStrip } from './strips.ts';

export interface RenderedOutput {
  /** Upright, encoded in the output space: `Rgb16` where its depth is 16. */
  readonly picture: Rgb8 | Rgb16;
  /** Of the whole picture, as `Rendered.full`. */
  readonly full: Size;
  readonly issues: readonly Finding[];
}

/**
 * The picture of a mosaic with its look, as `renderMosaic`, in any space and depth. Colours that the space cannot hold are
 * mapped into it in OKLCh (`mapIntoGamut` in the room `colour`); the look's own light ends at Rec.2020.
 * Errors: those of `renderMosaic`; RangeError for a space whose matrix has no inverse.
 */
export function renderOutput(
  mosaic: Mosaic,
  look: CompiledLook,
  size: RenderSize,
  output: OutputSpace,
  noise: NoiseSource = () => estimateNoise(mosaic),
  watch: RowWatch = nobodyWatches,
): RenderedOutput {
  if (activeParts(look.local).length > 0) {
    const light = localLight(mosaic, look, size, 'working', noise);
    const { picture, take } = outputTaker(light.window, light.target, output);
    light.forEachBand((band, rowStart, rowEnd) => {
      take(band, rowStart, rowEnd);
      watch(rowEnd, light.window.heightPx);
    });
    return {
      picture: light.isUpright ? picture : turnEither(picture, mosaic),
      full: light.full,
      issues: light.issues,
    };
  }
  const plan = planDevelop(mosaic);
  const frame = planFrame(mosaic, size);
  const light = displayLight(mosaic, plan, frame, look, 'working');
  const { picture, take } = outputTaker(light, frame.target, output);
  forEachStrip(light, (rowStart, rowEnd) => {
    light.fill(rowStart, rowEnd);
    take(light.kernels.strip, rowStart, rowEnd);
    watch(rowEnd, light.heightPx);
  });
  return {
    picture: turnEither(picture, mosaic),
    full: uprightSize(mosaic, mosaic.orientation),
    issues: [...plan.issues, ...look.findings],
  };
}

/** A picture that grows from strips of working light, which is overwritten. */
export interface OutputTaker {
  readonly picture: Rgb8 | Rgb16;
  readonly take: (strip: Float32Array, rowStart: number, rowEnd: number) => void;
}

/** Reduces, where `target` is smaller, before colours are mapped and encoded: light mixes, codes do not. */
export function outputTaker(from: Size, target: Size, output: OutputSpace): OutputTaker {
  const numbers = gamutNumbers(output);
  if (numbers === null) throw new RangeError('outputTaker: the output space has no inverse');
  const curve = encodeCurve(output);
  const picture = emptyPicture(target, output.depth);
  const write = (line: Float32Array, pixels: number, firstRow: number): void => {
    mapGamut(line, pixels, numbers);
    encodeThrough(line, pixels * 3, curve, picture.data, firstRow * target.widthPx * 3);
  };
  if (target.widthPx === from.widthPx && target.heightPx === from.heightPx) {
    const take: OutputTaker['take'] = (strip, rowStart, rowEnd) =>
      write(strip, (rowEnd - rowStart) * from.widthPx, rowStart);
    return { picture, take };
  }
  const reduce = areaReducer(from, target, (line, row) => write(line, target.widthPx, row));
  return { picture, take: (strip, rowStart, rowEnd) => reduce(strip, rowEnd - rowStart) };
}

function emptyPicture(size: Size, depth: OutputSpace['depth']): Rgb8 | Rgb16 {
  const samples = size.widthPx * size.heightPx * 3;
  return depth === 8
    ? { data: new Uint8Array(samples), ...size, channels: 3 }
    : { data: new Uint16Array(samples), ...size, channels: 3 };
}

function turnEither(picture: Rgb8 | Rgb16, { orientation }: Mosaic): Rgb8 | Rgb16 {
  return isEight(picture) ? turnUpright(picture, orientation) : turnUpright(picture, orientation);
}

function isEight(picture: Rgb8 | Rgb16): picture is Rgb8 {
  return picture.data instanceof Uint8Array;
}
