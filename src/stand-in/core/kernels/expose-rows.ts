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
  /** Movement while the shutter is open: shifts and their shares; empty where there is none. */
  readonly tapX: Int16Array;
  readonly tapY: Int16Array;
  readonly shareOfTap: Float32Array;
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
  const line = new Float32Array(input.baseWidthPx * 3);
  let filled = -reach;
  for (let row = 0; row < heightPx; row++) {
    for (; filled <= row + reach; filled++) {
      filterRow(input, filled, line, slot(ring, filled));
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

/** Takes one row of the rendering and filters it along x. */
function filterRow(input: ExposeInput, row: number, line: Float32Array, out: Float32Array): void {
  const { baseWidthPx, baseHeightPx, left, top, widthPx, weightsX } = input;
  const baseRow = Math.min(baseHeightPx - 1, Math.max(0, row + top));
  if (input.shareOfTap.length === 0) decodeRow(input, baseRow, line);
  else shakeRow(input, baseRow, line);
  const reach = (weightsX.length - 1) >> 1;
  for (let column = 0; column < widthPx; column++) {
    let red = 0;
    let green = 0;
    let blue = 0;
    for (let k = -reach; k <= reach; k++) {
      const x = Math.min(baseWidthPx - 1, Math.max(0, column + left + k)) * 3;
      const weight = weightsX[k + reach];
      red += weight * line[x];
      green += weight * line[x + 1];
      blue += weight * line[x + 2];
    }
    const to = column * 3;
    out[to] = red;
    out[to + 1] = green;
    out[to + 2] = blue;
  }
}

function decodeRow({ codes, decode, baseWidthPx }: ExposeInput, row: number, line: Float32Array): void {
  const from = row * baseWidthPx * 3;
  for (let k = 0; k < line.length; k++) line[k] = decode[codes[from + k]];
}

/** A row as it is while the camera moves: every tap brings the rendering from a little elsewhere. */
function shakeRow(input: ExposeInput, row: number, line: Float32Array): void {
  const { codes, decode, baseWidthPx, baseHeightPx, tapX, tapY, shareOfTap } = input;
  line.fill(0);
  for (let tap = 0; tap < shareOfTap.length; tap++) {
    const share = shareOfTap[tap];
    const shift = tapX[tap];
    const from = Math.min(baseHeightPx - 1, Math.max(0, row - tapY[tap])) * baseWidthPx;
    const first = Math.max(0, shift);
    const last = Math.min(baseWidthPx, baseWidthPx + shift);
    for (let k = first * 3, at = (from + first - shift) * 3; k < last * 3; k++, at++) {
      line[k] += share * decode[codes[at]];
    }
    // Beyond the rendering its edge is repeated.
    for (let x = 0; x < first; x++) addPixel(line, x * 3, codes, from * 3, decode, share);
    for (let x = last; x < baseWidthPx; x++)
      addPixel(line, x * 3, codes, (from + baseWidthPx - 1) * 3, decode, share);
  }
}

function addPixel(
  line: Float32Array,
  to: number,
  codes: Uint16Array,
  from: number,
  decode: Float32Array,
  share: number,
): void {
  for (let k = 0; k < 3; k++) line[to + k] += share * decode[codes[from + k]];
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
