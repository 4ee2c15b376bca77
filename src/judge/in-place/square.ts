import type { ShareBox } from '../../facts/index.ts';
import { fftSquareOfReal, fftSquareToReal } from '../kernels/fft.ts';
import type { Level } from './level.ts';

/** A square of complex numbers, row by row; the size is a power of two. */
export interface Square {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly size: number;
}

export interface Turns {
  readonly cosines: Float64Array;
  readonly sines: Float64Array;
}

/** Tables for `fft` of that size. */
export function turnsOf(size: number): Turns {
  const angle = (_: unknown, k: number): number => (2 * Math.PI * k) / size;
  const angles = Float64Array.from({ length: size >> 1 }, angle);
  return { cosines: angles.map(Math.cos), sines: angles.map(Math.sin) };
}

/** Share of each edge over which a window rises. */
const rise = 0.2;

/** Spectrum of a level under a window whose edges rise by a cosine (Tukey's); what is no number counts as 0. */
export function spectrumOf({ data, widthPx, heightPx }: Level, box: ShareBox | null, size: number): Square {
  const real = new Float64Array(size * size);
  const across = windowOf(widthPx, box?.left ?? 0, box?.right ?? 1);
  const down = windowOf(heightPx, box?.top ?? 0, box?.bottom ?? 1);
  for (let row = 0; row < Math.min(size, heightPx); row++) {
    for (let column = 0; column < Math.min(size, widthPx); column++) {
      const value = data[row * widthPx + column] ?? 0;
      const light = Number.isNaN(value) ? 0 : value;
      real[row * size + column] = light * (across[column] ?? 0) * (down[row] ?? 0);
    }
  }
  const square = { real, imaginary: new Float64Array(size * size), size };
  const { cosines, sines } = turnsOf(size);
  fftSquareOfReal(square.real, square.imaginary, size, cosines, sines);
  return square;
}

function windowOf(length: number, from: number, to: number): Float64Array {
  const start = from * length;
  const span = Math.max(1, (to - from) * length);
  return Float64Array.from({ length }, (_, at) => {
    const near = Math.min(at + 0.5 - start, start + span - at - 0.5) / (rise * span);
    return near <= 0 ? 0 : near >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * near);
  });
}

export interface Peak {
  /** By how much the second lies right of and below the first, px; whole numbers, -size / 2 … size / 2 - 1. */
  readonly x: number;
  readonly y: number;
  readonly height: number;
}

/** Peaks nearer than this to a higher one are its slopes. */
const apartPx = 4;
/** Deviation of the weight that high frequencies are given, share of the highest: there noise lies. */
const lowPass = 0.35;

function lowPassOf(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, at) => {
    const share = Math.min(at, size - at) / (size / 2);
    return Math.exp(-(share * share) / (2 * lowPass * lowPass));
  });
}

/**
 * Where two pictures fit: the highest peaks of their phase correlation (Kuglin and Hines, Proceedings of the IEEE
 * International Conference on Cybernetics and Society, 1975), highest first. `first`, `second`: spectra; left as they are.
 */
export function phasePeaks(first: Square, second: Square, count: number): Peak[] {
  const { size } = first;
  const real = new Float64Array(size * size);
  const imaginary = new Float64Array(size * size);
  const weights = lowPassOf(size);
  for (let row = 0; row < size; row++) {
    // The other half mirrors this one.
    for (let column = 0; column <= size >> 1; column++) {
      const at = row * size + column;
      const [a, b, c, d] = [first.real[at], first.imaginary[at], second.real[at], second.imaginary[at]];
      const re = (c ?? 0) * (a ?? 0) + (d ?? 0) * (b ?? 0);
      const im = (d ?? 0) * (a ?? 0) - (c ?? 0) * (b ?? 0);
      const weight = ((weights[row] ?? 0) * (weights[column] ?? 0)) / (Math.sqrt(re * re + im * im) + 1e-9);
      real[at] = re * weight;
      imaginary[at] = im * weight;
    }
  }
  const { cosines, sines } = turnsOf(size);
  fftSquareToReal(real, imaginary, size, cosines, sines);
  return peaksOf(real, size, count);
}

function peaksOf(values: Float64Array, size: number, count: number): Peak[] {
  const peaks: Peak[] = [];
  const signed = (place: number): number => (place >= size / 2 ? place - size : place);
  const around = (a: number, b: number): number => {
    const apart = Math.abs(a - b);
    return Math.min(apart, size - apart);
  };
  while (peaks.length < count) {
    let [best, height] = [-1, 0];
    for (let at = 0; at < values.length; at++) {
      const value = values[at] ?? 0;
      if (value <= height) continue;
      const x = signed(at % size);
      const y = signed(Math.floor(at / size));
      if (peaks.some((peak) => around(peak.x, x) < apartPx && around(peak.y, y) < apartPx)) continue;
      [best, height] = [at, value];
    }
    if (best < 0) break;
    peaks.push({ x: signed(best % size), y: signed(Math.floor(best / size)), height });
  }
  return peaks;
}
