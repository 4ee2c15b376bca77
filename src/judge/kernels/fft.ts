/**
 * Fourier transform of `size` complex numbers in place, `size` a power of two: radix 2, decimation in time (Cooley and
 * Tukey, Mathematics of Computation 19, 1965). X[k] = Σ x[n] exp(∓2πi kn / size), minus forward, plus for `inverse`; the
 * inverse is not divided by `size`. The numbers lie at `offset + n * stride`.
 *
 * `cosines`, `sines`: of 2πk / size for k = 0 … size / 2 - 1.
 */
export function fft(
  real: Float64Array,
  imaginary: Float64Array,
  offset: number,
  stride: number,
  size: number,
  cosines: Float64Array,
  sines: Float64Array,
  inverse: boolean,
): void {
  const last = offset + (size - 1) * stride;
  if (size < 1 || (size & (size - 1)) !== 0 || cosines.length < size >> 1 || sines.length < size >> 1) {
    throw new RangeError('fft: size is no power of two, or its tables are too short');
  }
  if (real.length <= last || imaginary.length <= last) throw new RangeError('fft: sizes differ');
  for (let at = 1, reversed = 0; at < size; at++) {
    let bit = size >> 1;
    while (reversed & bit) {
      reversed ^= bit;
      bit >>= 1;
    }
    reversed ^= bit;
    if (at < reversed) {
      const a = offset + at * stride;
      const b = offset + reversed * stride;
      const re = real[a];
      const im = imaginary[a];
      real[a] = real[b];
      imaginary[a] = imaginary[b];
      real[b] = re;
      imaginary[b] = im;
    }
  }
  const sign = inverse ? 1 : -1;
  for (let half = 1; half < size; half <<= 1) {
    const tableStep = size / (2 * half);
    for (let k = 0; k < half; k++) {
      const c = cosines[k * tableStep];
      const s = sign * sines[k * tableStep];
      for (let start = k; start < size; start += 2 * half) {
        const a = offset + start * stride;
        const b = a + half * stride;
        const re = real[b] * c - imaginary[b] * s;
        const im = real[b] * s + imaginary[b] * c;
        real[b] = real[a] - re;
        imaginary[b] = imaginary[a] - im;
        real[a] += re;
        imaginary[a] += im;
      }
    }
  }
}

/** The same of a square of `size` x `size` numbers, rows first, then columns. */
export function fftSquare(
  real: Float64Array,
  imaginary: Float64Array,
  size: number,
  cosines: Float64Array,
  sines: Float64Array,
  inverse: boolean,
): void {
  for (let row = 0; row < size; row++) {
    fft(real, imaginary, row * size, 1, size, cosines, sines, inverse);
  }
  for (let column = 0; column < size; column++) {
    fft(real, imaginary, column, size, size, cosines, sines, inverse);
  }
}
