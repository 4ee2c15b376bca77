/**
 * One frame out of a noise-free rendering: optics, sensor, noise. Kernel; lengths are checked by its caller
 * (`core/exposure.ts`).
 */
import { hash32 } from './hash.ts';

export interface ExposeInput {
  /** Rendering, RGB interleaved, coded; `decode[code]` is the linear value. */
  readonly codes: Uint16Array;
  readonly decode: Float32Array;
  readonly baseWidthPx: number;
  readonly baseHeightPx: number;
  /** Where the frame's top left pixel lies in the rendering, whole pixels. */
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Weights along x and y, odd length, centred; they hold the sub-pixel part of the offset and the blur. */
  readonly weightsX: Float32Array;
  readonly weightsY: Float32Array;
  /** Rendering RGB to raw steps above black for red, green, blue; row-major 3x3, exposure included. */
  readonly toSteps: Float32Array;
  readonly blackLevels: readonly number[];
  readonly whiteLevel: number;
  readonly electronsPerStep: number;
  readonly readNoiseSteps: number;
  readonly seed: number;
  /** 0 for the noise-free truth, 1 for a real sensor. */
  readonly noise: number;
}

/** Fills `mosaic` (RGGB, `widthPx * heightPx`). Rows wanted beyond the rendering repeat its edge. */
export function exposeRows(input: ExposeInput, mosaic: Uint16Array): void {
  const { widthPx, heightPx, weightsY } = input;
  const reach = (weightsY.length - 1) >> 1;
  const rowLength = widthPx * 3;
  const ring: Float32Array[] = [];
  for (let k = 0; k < weightsY.length; k++) ring.push(new Float32Array(rowLength));
  const mixed = new Float32Array(rowLength);
  let filled = -reach;
  for (let row = 0; row < heightPx; row++) {
    for (; filled <= row + reach; filled++) {
      filterRow(input, filled, slot(ring, filled));
    }
    if (weightsY.length === 1) {
      developRow(input, row, slot(ring, row), mosaic);
      continue;
    }
    mixed.fill(0);
    for (let k = -reach; k <= reach; k++) {
      const weight = weightsY[k + reach];
      const source = slot(ring, row + k);
      for (let i = 0; i < rowLength; i++) mixed[i] += weight * source[i];
    }
    developRow(input, row, mixed, mosaic);
  }
}

function slot(ring: Float32Array[], row: number): Float32Array {
  const length = ring.length;
  return ring[((row % length) + length) % length];
}

/** Decodes one row of the rendering and filters it along x. */
function filterRow(input: ExposeInput, row: number, out: Float32Array): void {
  const { codes, decode, baseWidthPx, baseHeightPx, left, top, widthPx, weightsX } = input;
  const reach = (weightsX.length - 1) >> 1;
  const baseRow = Math.min(baseHeightPx - 1, Math.max(0, row + top)) * baseWidthPx;
  for (let column = 0; column < widthPx; column++) {
    let red = 0;
    let green = 0;
    let blue = 0;
    for (let k = -reach; k <= reach; k++) {
      const x = Math.min(baseWidthPx - 1, Math.max(0, column + left + k));
      const at = (baseRow + x) * 3;
      const weight = weightsX[k + reach];
      red += weight * decode[codes[at]];
      green += weight * decode[codes[at + 1]];
      blue += weight * decode[codes[at + 2]];
    }
    const to = column * 3;
    out[to] = red;
    out[to + 1] = green;
    out[to + 2] = blue;
  }
}

/**
 * Photons to raw steps. Photon noise is Poisson; with more than some twenty electrons a Gaussian of the same variance
 * cannot be told from it, and fewer drown in the read noise.
 */
function developRow(input: ExposeInput, row: number, rgb: Float32Array, mosaic: Uint16Array): void {
  const { widthPx, toSteps, blackLevels, whiteLevel, electronsPerStep, readNoiseSteps, seed, noise } = input;
  const readVariance = readNoiseSteps * readNoiseSteps;
  for (let column = 0; column < widthPx; column++) {
    const place = (row & 1) * 2 + (column & 1);
    const channel = (place + 1) >> 1;
    const at = column * 3;
    const m = channel * 3;
    let steps = toSteps[m] * rgb[at] + toSteps[m + 1] * rgb[at + 1] + toSteps[m + 2] * rgb[at + 2];
    if (steps < 0) steps = 0;
    if (noise > 0) {
      const sigma = Math.sqrt(steps / electronsPerStep + readVariance);
      steps += noise * sigma * gaussian(seed, row * widthPx + column);
    }
    const value = Math.round(steps + blackLevels[place]);
    mosaic[row * widthPx + column] = Math.max(0, Math.min(whiteLevel, value));
  }
}

/**
 * Standard normal from four uniform bytes pairs: the sum of four 16-bit uniforms has the right mean and variance and
 * tails to 3.5 sigma, which a photograph cannot tell from a Gaussian; no logarithm per pixel.
 */
function gaussian(seed: number, index: number): number {
  const a = hash32(seed, index * 2);
  const b = hash32(seed, index * 2 + 1);
  const sum = (a & 0xffff) + (a >>> 16) + (b & 0xffff) + (b >>> 16);
  return (sum - 131_070) * 2.642_9e-5;
}
