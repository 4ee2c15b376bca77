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

/**
 * The same of a square of `size` x `size` numbers: rows, then columns. Columns are copied to where they lie one behind the
 * other: in place each of their numbers is a cache line of its own.
 */
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
  const scratch = { re: new Float64Array(size), im: new Float64Array(size) };
  for (let column = 0; column < size; column++) {
    fftColumn(real, imaginary, column, size, cosines, sines, inverse, scratch.re, scratch.im);
  }
}

/**
 * {@link fftSquare} forward of real numbers (`imaginary` all 0), in half the time: rows of zeros are left as they are, and
 * half of the columns follow from X[-v, -u] = conj X[v, u].
 */
export function fftSquareOfReal(
  real: Float64Array,
  imaginary: Float64Array,
  size: number,
  cosines: Float64Array,
  sines: Float64Array,
): void {
  for (let row = 0; row < size; row++) {
    let at = row * size;
    const end = at + size;
    while (at < end && real[at] === 0) at++;
    if (at < end) fft(real, imaginary, row * size, 1, size, cosines, sines, false);
  }
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let column = 0; column <= size >> 1; column++) {
    fftColumn(real, imaginary, column, size, cosines, sines, false, re, im);
  }
  for (let row = 0; row < size; row++) {
    const mirrored = ((size - row) & (size - 1)) * size;
    for (let column = (size >> 1) + 1; column < size; column++) {
      real[row * size + column] = real[mirrored + size - column];
      imaginary[row * size + column] = -imaginary[mirrored + size - column];
    }
  }
}

/**
 * {@link fftSquare} inverse where the result is known to be real. Of the spectrum only columns 0 … size / 2 are looked at;
 * of the result only `real` means something. `size`: 2 or more.
 */
export function fftSquareToReal(
  real: Float64Array,
  imaginary: Float64Array,
  size: number,
  cosines: Float64Array,
  sines: Float64Array,
): void {
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let column = 0; column <= size >> 1; column++) {
    fftColumn(real, imaginary, column, size, cosines, sines, true, re, im);
  }
  // Two rows at once, the one as the real and the other as the imaginary part of what comes out.
  for (let row = 0; row < size; row += 2) {
    const first = row * size;
    const second = first + size;
    for (let column = 0; column < size; column++) {
      const isOwn = column <= size >> 1;
      const from = isOwn ? column : size - column;
      const sign = isOwn ? 1 : -1;
      re[column] = real[first + from] - sign * imaginary[second + from];
      im[column] = sign * imaginary[first + from] + real[second + from];
    }
    fft(re, im, 0, 1, size, cosines, sines, true);
    real.set(re, first);
    real.set(im, second);
  }
}

function fftColumn(
  real: Float64Array,
  imaginary: Float64Array,
  column: number,
  size: number,
  cosines: Float64Array,
  sines: Float64Array,
  inverse: boolean,
  re: Float64Array,
  im: Float64Array,
): void {
  for (let row = 0, at = column; row < size; row++, at += size) {
    re[row] = real[at];
    im[row] = imaginary[at];
  }
  fft(re, im, 0, 1, size, cosines, sines, inverse);
  for (let row = 0, at = column; row < size; row++, at += size) {
    real[at] = re[row];
    imaginary[at] = im[row];
  }
}
