import { expect, test } from 'vitest';
import { turnsOf } from '../in-place/square.ts';
import { gaussian } from '../testing/made-light.ts';
import { fft, fftSquare, fftSquareOfReal, fftSquareToReal } from './fft.ts';

/** The definition itself: X[k] = Σ x[n] exp(-2πi kn / N). */
function plainTransform(real: Float64Array, imaginary: Float64Array): { re: number[]; im: number[] } {
  const n = real.length;
  const each = (part: (c: number, s: number, at: number) => number): number[] =>
    Array.from({ length: n }, (_, k) => {
      let sum = 0;
      for (let at = 0; at < n; at++) {
        const angle = (-2 * Math.PI * k * at) / n;
        sum += part(Math.cos(angle), Math.sin(angle), at);
      }
      return sum;
    });
  return {
    re: each((c, s, at) => (real[at] ?? 0) * c - (imaginary[at] ?? 0) * s),
    im: each((c, s, at) => (real[at] ?? 0) * s + (imaginary[at] ?? 0) * c),
  };
}

const noise = (size: number, seed: number): Float64Array => {
  const random = gaussian(seed);
  return Float64Array.from({ length: size }, () => random());
};

test.each([1, 2, 4, 8, 64, 256])('%d numbers are transformed as the definition says, and back', (size) => {
  const [real, imaginary] = [noise(size, 1), noise(size, 2)];
  const [first, second] = [real.slice(), imaginary.slice()];
  const wanted = plainTransform(real, imaginary);
  const { cosines, sines } = turnsOf(size);
  fft(real, imaginary, 0, 1, size, cosines, sines, false);
  for (let k = 0; k < size; k++) {
    expect(real[k]).toBeCloseTo(wanted.re[k] ?? 0, 9);
    expect(imaginary[k]).toBeCloseTo(wanted.im[k] ?? 0, 9);
  }
  fft(real, imaginary, 0, 1, size, cosines, sines, true);
  for (let k = 0; k < size; k++) {
    expect((real[k] ?? 0) / size).toBeCloseTo(first[k] ?? 0, 12);
    expect((imaginary[k] ?? 0) / size).toBeCloseTo(second[k] ?? 0, 12);
  }
});

test('a square is transformed row by row, then column by column', () => {
  const size = 8;
  const [real, imaginary] = [noise(64, 3), new Float64Array(64)];
  const given = real.slice();
  const { cosines, sines } = turnsOf(size);
  fftSquare(real, imaginary, size, cosines, sines, false);
  for (const [u, v] of [
    [0, 0],
    [3, 5],
    [7, 1],
  ] as const) {
    let [re, im] = [0, 0];
    given.forEach((value, at) => {
      const angle = (-2 * Math.PI * (u * (at % size) + v * Math.floor(at / size))) / size;
      re += value * Math.cos(angle);
      im += value * Math.sin(angle);
    });
    expect(real[v * size + u]).toBeCloseTo(re, 9);
    expect(imaginary[v * size + u]).toBeCloseTo(im, 9);
  }
});

test('what is no power of two, and tables and arrays too short, are refused', () => {
  const { cosines, sines } = turnsOf(8);
  const eight = (): Float64Array => new Float64Array(8);
  expect(() => fft(eight(), eight(), 0, 1, 6, cosines, sines, false)).toThrow(RangeError);
  expect(() => fft(eight(), eight(), 0, 1, 16, cosines, sines, false)).toThrow(RangeError);
  expect(() => fft(eight(), eight(), 0, 2, 8, cosines, sines, false)).toThrow(RangeError);
});

test.each([2, 8, 64])(
  'a square of %d real numbers has the spectrum it has as a complex one, and comes back',
  (size) => {
    const { cosines, sines } = turnsOf(size);
    const light = noise(size * size, 3);
    // A row without light is left out of the first pass.
    light.fill(0, size, 2 * size);
    const [real, imaginary] = [light.slice(), new Float64Array(size * size)];
    const [wanted, wantedIm] = [light.slice(), new Float64Array(size * size)];
    fftSquareOfReal(real, imaginary, size, cosines, sines);
    fftSquare(wanted, wantedIm, size, cosines, sines, false);
    for (let at = 0; at < size * size; at++) {
      expect(real[at]).toBeCloseTo(wanted[at] ?? 0, 9);
      expect(imaginary[at]).toBeCloseTo(wantedIm[at] ?? 0, 9);
    }
    fftSquareToReal(real, imaginary, size, cosines, sines);
    for (let at = 0; at < size * size; at++) expect(real[at]).toBeCloseTo((light[at] ?? 0) * size * size, 7);
  },
);
