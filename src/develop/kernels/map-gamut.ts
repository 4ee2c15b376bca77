/** How far outside is cut without a search: less than half of what is noticed in OKLab, whatever the colour. */
const nearMax = 1e-6;

/**
 * Takes `count` pixels of linear light to linear RGB of an output gamut, in place, and maps what lies outside into it.
 * Reference: `mapIntoGamut` in the room `colour`, which names the source.
 *
 * `numbers`: five matrices of nine in row order: to output RGB; output RGB to the cones of OKLab and back; cones to OKLab
 * and back. Then two figures: what is just noticed, and how fine chroma is searched.
 */
export function mapGamut(rgb: Float32Array, count: number, numbers: Float64Array): void {
  if (rgb.length < count * 3 || numbers.length !== 47) throw new RangeError('mapGamut: sizes differ');
  const t0 = numbers[0];
  const t1 = numbers[1];
  const t2 = numbers[2];
  const t3 = numbers[3];
  const t4 = numbers[4];
  const t5 = numbers[5];
  const t6 = numbers[6];
  const t7 = numbers[7];
  const t8 = numbers[8];
  const found = new Float64Array(3);
  const end = count * 3;
  for (let i = 0; i < end; i += 3) {
    const x = rgb[i];
    const y = rgb[i + 1];
    const z = rgb[i + 2];
    const r = t0 * x + t1 * y + t2 * z;
    const g = t3 * x + t4 * y + t5 * z;
    const b = t6 * x + t7 * y + t8 * z;
    if (r >= 0 && g >= 0 && b >= 0 && r <= 1 && g <= 1 && b <= 1) {
      rgb[i] = r;
      rgb[i + 1] = g;
      rgb[i + 2] = b;
      continue;
    }
    const isNear = Math.min(r, g, b) >= -nearMax && Math.max(r, g, b) <= 1 + nearMax;
    if (isNear) {
      found[0] = r;
      found[1] = g;
      found[2] = b;
    } else {
      search(r, g, b, numbers, found);
    }
    rgb[i] = Math.min(1, Math.max(0, found[0]));
    rgb[i + 1] = Math.min(1, Math.max(0, found[1]));
    rgb[i + 2] = Math.min(1, Math.max(0, found[2]));
  }
}

/** Puts into `found` the colour that is to be cut. */
function search(r: number, g: number, b: number, numbers: Float64Array, found: Float64Array): void {
  toLab(r, g, b, numbers, lab);
  const L = lab[0];
  const A = lab[1];
  const B = lab[2];
  if (!(L < 1)) {
    found.fill(1);
    return;
  }
  if (L <= 0) {
    found.fill(0);
    return;
  }
  found[0] = r;
  found[1] = g;
  found[2] = b;
  const noticed = numbers[45];
  const step = numbers[46];
  if (cutDistance(found, L, A, B, numbers) < noticed) return;
  const chroma = Math.sqrt(A * A + B * B);
  let low = 0;
  let high = 1;
  let lowIsInside = true;
  while ((high - low) * chroma > step) {
    const share = (low + high) / 2;
    const a = A * share;
    const bb = B * share;
    fromLab(L, a, bb, numbers, found);
    const isInside =
      found[0] >= 0 && found[1] >= 0 && found[2] >= 0 && found[0] <= 1 && found[1] <= 1 && found[2] <= 1;
    if (lowIsInside && isInside) {
      low = share;
      continue;
    }
    const distance = cutDistance(found, L, a, bb, numbers);
    if (distance >= noticed) high = share;
    else if (noticed - distance < step) return;
    else {
      lowIsInside = false;
      low = share;
    }
  }
}

const lab = new Float64Array(3);

/** OKLab distance between a colour, L a b, and what is left of it, `rgb`, once that is cut. */
function cutDistance(rgb: Float64Array, L: number, a: number, b: number, numbers: Float64Array): number {
  const red = Math.min(1, Math.max(0, rgb[0]));
  const green = Math.min(1, Math.max(0, rgb[1]));
  const blue = Math.min(1, Math.max(0, rgb[2]));
  toLab(red, green, blue, numbers, lab);
  const dL = lab[0] - L;
  const da = lab[1] - a;
  const db = lab[2] - b;
  return Math.sqrt(dL * dL + da * da + db * db);
}

function toLab(r: number, g: number, b: number, n: Float64Array, out: Float64Array): void {
  const l = Math.cbrt(n[9] * r + n[10] * g + n[11] * b);
  const m = Math.cbrt(n[12] * r + n[13] * g + n[14] * b);
  const s = Math.cbrt(n[15] * r + n[16] * g + n[17] * b);
  out[0] = n[27] * l + n[28] * m + n[29] * s;
  out[1] = n[30] * l + n[31] * m + n[32] * s;
  out[2] = n[33] * l + n[34] * m + n[35] * s;
}

function fromLab(L: number, a: number, b: number, n: Float64Array, out: Float64Array): void {
  const l = n[36] * L + n[37] * a + n[38] * b;
  const m = n[39] * L + n[40] * a + n[41] * b;
  const s = n[42] * L + n[43] * a + n[44] * b;
  const l3 = l * l * l;
  const m3 = m * m * m;
  const s3 = s * s * s;
  out[0] = n[18] * l3 + n[19] * m3 + n[20] * s3;
  out[1] = n[21] * l3 + n[22] * m3 + n[23] * s3;
  out[2] = n[24] * l3 + n[25] * m3 + n[26] * s3;
}
