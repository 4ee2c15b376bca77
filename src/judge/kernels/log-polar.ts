/**
 * The size of a spectrum on rings and rays: `out[ray * rings + ring]` is log(1 + |X|) at the angle π ray / rays (half a
 * turn is all there is: a real picture's spectrum is the same on the other side) and at the frequency
 * from * step^ring, in cycles over `size`. Between the samples of the spectrum it is linear.
 *
 * `real`, `imaginary`: size * size, frequency 0 first, as `fftSquare` gives it.
 */
export function logPolar(
  real: Float64Array,
  imaginary: Float64Array,
  size: number,
  rays: number,
  rings: number,
  from: number,
  step: number,
  out: Float64Array,
): void {
  if (real.length < size * size || imaginary.length < size * size || out.length < rays * rings) {
    throw new RangeError('logPolar: sizes differ');
  }
  const mask = size - 1;
  for (let ray = 0; ray < rays; ray++) {
    const c = Math.cos((Math.PI * ray) / rays);
    const s = Math.sin((Math.PI * ray) / rays);
    let frequency = from;
    for (let ring = 0; ring < rings; ring++) {
      const u = frequency * c + size;
      const v = frequency * s + size;
      const left = Math.floor(u);
      const top = Math.floor(v);
      let sum = 0;
      for (let corner = 0; corner < 4; corner++) {
        const x = left + (corner & 1);
        const y = top + (corner >> 1);
        const at = (y & mask) * size + (x & mask);
        const share = (1 - Math.abs(u - x)) * (1 - Math.abs(v - y));
        sum += share * Math.sqrt(real[at] * real[at] + imaginary[at] * imaginary[at]);
      }
      out[ray * rings + ring] = Math.log(1 + sum);
      frequency *= step;
    }
  }
}
