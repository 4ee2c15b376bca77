/** Half width of the kernel in pixels, where nothing is reduced. */
export const lanczosLobes = 3;

/** Phases of a pixel that weights are tabled for. */
const phases = 512;

const weightTable = new Float64Array(2 * lanczosLobes * phases + 1);
for (let i = 0; i < weightTable.length; i++) weightTable[i] = lanczos(i / phases - lanczosLobes);

/**
 * sinc(x) sinc(x / 3) for |x| < 3 (C. Duchon: Lanczos filtering in one and two dimensions, Journal of Applied Meteorology
 * 18, 1979): goes through the samples, so that pixels that stay where they are stay what they are.
 */
export function lanczos(x: number): number {
  if (x === 0) return 1;
  if (Math.abs(x) >= lanczosLobes || Number.isInteger(x)) return 0;
  const phase = Math.PI * x;
  return (lanczosLobes * Math.sin(phase) * Math.sin(phase / lanczosLobes)) / (phase * phase);
}

/**
 * Takes `count` pixels of a row from a picture through a homography. The first pixel's middle lies at (`x0`, `y`) of what is
 * written, the next one further along x. `m` takes them to the source, in its pixels from its first corner; `source` is the
 * part of it that begins at (`left`, `top`), and what lies outside is its nearest pixel. Where pixels of the source come closer
 * together than those written, the kernel is widened, so that nothing finer than them is left. Values are linear; what
 * overshoots 0 … 1 is held. Reference: `resampleReference` in local/resample-reference.ts.
 */
export function resampleRow(
  source: Float32Array,
  widthPx: number,
  heightPx: number,
  left: number,
  top: number,
  m: Float64Array,
  x0: number,
  y: number,
  count: number,
  weightsX: Float64Array,
  weightsY: Float64Array,
  out: Float32Array,
  outOffset: number,
): void {
  if (source.length < widthPx * heightPx * 3 || out.length < outOffset + count * 3 || m.length !== 9)
    throw new RangeError('resampleRow: sizes differ');
  const m0 = m[0];
  const m3 = m[3];
  const m6 = m[6];
  const startX = m[1] * y + m[2];
  const startY = m[4] * y + m[5];
  const startW = m[7] * y + m[8];
  let to = outOffset;
  for (let i = 0; i < count; i++, to += 3) {
    const x = x0 + i;
    const over = 1 / (m6 * x + startW);
    const atX = (m0 * x + startX) * over;
    const atY = (m3 * x + startY) * over;
    // How far one pixel along each edge of the result leads in the source.
    const spreadX = Math.hypot((m0 - atX * m6) * over, (m[1] - atX * m[7]) * over);
    const spreadY = Math.hypot((m3 - atY * m6) * over, (m[4] - atY * m[7]) * over);
    const firstX = tapsOf(atX - 0.5, spreadX, weightsX) - left;
    const tapsX = weightsX[weightsX.length - 1];
    const firstY = tapsOf(atY - 0.5, spreadY, weightsY) - top;
    const tapsY = weightsY[weightsY.length - 1];
    let r = 0;
    let g = 0;
    let b = 0;
    const inside = firstX >= 0 && firstX + tapsX <= widthPx;
    for (let j = 0; j < tapsY; j++) {
      const row = Math.min(heightPx - 1, Math.max(0, firstY + j));
      let lineR = 0;
      let lineG = 0;
      let lineB = 0;
      if (inside) {
        let at = (row * widthPx + firstX) * 3;
        for (let k = 0; k < tapsX; k++, at += 3) {
          const weight = weightsX[k];
          lineR += weight * source[at];
          lineG += weight * source[at + 1];
          lineB += weight * source[at + 2];
        }
      } else {
        for (let k = 0; k < tapsX; k++) {
          const at = (row * widthPx + Math.min(widthPx - 1, Math.max(0, firstX + k))) * 3;
          const weight = weightsX[k];
          lineR += weight * source[at];
          lineG += weight * source[at + 1];
          lineB += weight * source[at + 2];
        }
      }
      const weight = weightsY[j];
      r += weight * lineR;
      g += weight * lineG;
      b += weight * lineB;
    }
    out[to] = Math.min(1, Math.max(0, r));
    out[to + 1] = Math.min(1, Math.max(0, g));
    out[to + 2] = Math.min(1, Math.max(0, b));
  }
}

/**
 * Weights of the pixels about `at` (in pixels, whole numbers at their middles), which add up to 1; gives the first one's
 * index. How many there are stands at the end of `weights`.
 */
function tapsOf(at: number, spread: number, weights: Float64Array): number {
  const scale = spread > 1 ? Math.min(spread, spreadMax) : 1;
  const reach = lanczosLobes * scale;
  // On a pixel's middle, to the last digits of a matrix, it is that pixel.
  const nearest = Math.round(at);
  const middle = Math.abs(at - nearest) < 1e-6 ? nearest : at;
  const first = Math.ceil(middle - reach);
  const last = Math.floor(middle + reach);
  const perPixel = phases / scale;
  let sum = 0;
  for (let index = first; index <= last; index++) {
    const weight = weightTable[Math.round((index - middle) * perPixel) + lanczosLobes * phases];
    weights[index - first] = weight;
    sum += weight;
  }
  const count = last - first + 1;
  for (let k = 0; k < count; k++) weights[k] /= sum;
  weights[weights.length - 1] = count;
  return first;
}

/** Geometry's bounds keep within this by far (`levelLines` in look). */
export const spreadMax = 8;

/** Length of the two arrays of weights. */
export const weightsLength = 2 * lanczosLobes * spreadMax + 2;
