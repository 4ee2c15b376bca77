import { sampleNumbers } from './edge-samples.ts';
import { normalTable, placeOf } from './normal-table.ts';

/** Unknowns of an edge: see `fitEdge`. */
const unknowns = 8;
const rootTwoPi = Math.sqrt(2 * Math.PI);
/** So many samples at a time: what is known of them stays next to the processor. */
const together = 1024;
/** What is known of one sample: slopes p, pa, pb, q by offset, turn, bend and sigma, share, e, f, and what is left over. */
const known = 8;
const slopes = new Float64Array(together * known);
/** Rows of p, pa, pb and q, from here on in `sums`; behind them the products of the last four unknowns. */
const [rowA, rowB, rowC, rowD] = [0, 11, 22, 32] as const;
const sums = new Float64Array(43);

/**
 * Fills the equations of an edge (`matrix` its upper half and what mirrors it, `side` the right side); returns the sum of
 * squares left over. Shapes and order of the unknowns are those of `fitEdge`.
 *
 * All 43 sums in one loop have no room in the registers, which costs three times as long: a loop of its own for each row
 * of the matrix has, and adds in the same order.
 */
export function edgeEquations(
  samples: Float64Array,
  count: number,
  edge: Float64Array,
  matrix: Float64Array,
  side: Float64Array,
): number {
  sums.fill(0);
  for (let from = 0; from < count; from += together) {
    const length = Math.min(together, count - from);
    findSlopes(samples, from, length, edge);
    sumOffsetRow(length * known);
    sumTurnRow(length * known);
    sumBendRow(length * known);
    sumSigmaRow(length * known);
  }
  const [m00, m01, m02, m03, m04, m05, m06, m07, r0, r4, left] = sums;
  const [m11, m12, m13, m14, m15, m16, m17, r1, r5, r6, r7] = sums.subarray(rowB);
  const [m22, m23, m24, m25, m26, m27, r2, m45, m46, m47] = sums.subarray(rowC);
  const [m33, m34, m35, m36, m37, r3, m55, m57, m66, m67, m77] = sums.subarray(rowD);
  // The slopes by the first four are those of d with their signs turned.
  side.set([-r0, -r1, -r2, -r3, r4, r5, r6, r7]);
  matrix.set([m00, m01, m02, m03, -m04, -m05, -m06, -m07]);
  matrix.set([m01, m11, m12, m13, -m14, -m15, -m16, -m17], unknowns);
  matrix.set([m02, m12, m22, m23, -m24, -m25, -m26, -m27], 2 * unknowns);
  matrix.set([m03, m13, m23, m33, -m34, -m35, -m36, -m37], 3 * unknowns);
  matrix.set([-m04, -m14, -m24, -m34, count, m45, m46, m47], 4 * unknowns);
  // share * e is share * d less share * f, and share * d is f.
  matrix.set([-m05, -m15, -m25, -m35, m45, m55, m47 - m57, m57], 5 * unknowns);
  matrix.set([-m06, -m16, -m26, -m36, m46, m47 - m57, m66, m67], 6 * unknowns);
  matrix.set([-m07, -m17, -m27, -m37, m47, m57, m67, m77], 7 * unknowns);
  return left;
}

/** What is known of `length` samples from the one numbered `from` on. */
function findSlopes(samples: Float64Array, from: number, length: number, edge: Float64Array): void {
  const [offset, turn, bend, sigma, level, rise, before, behind] = edge;
  const perSigma = 1 / sigma;
  const perDensity = perSigma / rootTwoPi;
  const more = behind - before;
  for (let k = 0, at = from * sampleNumbers; k < length * known; k += known, at += sampleNumbers) {
    const along = samples[at + 1];
    const half = 0.5 * along * along;
    const d = samples[at] - offset - turn * along - bend * half;
    const t = d * perSigma;
    const place = placeOf(t);
    let share = place === -1 ? 0 : 1;
    let gauss = 0;
    if (place >= 0) {
      const t0 = normalTable[place + 2];
      const g0 = normalTable[place + 1];
      const step = t - t0;
      const second = (t0 * t0 - 1) * step * step;
      share = normalTable[place] + (g0 / rootTwoPi) * step * (1 - 0.5 * t0 * step + second / 6);
      gauss = g0 * (1 - t0 * step + 0.5 * second - (t0 * (t0 * t0 - 3) * step * step * step) / 6);
    }
    // e and f belong to the slopes before and behind.
    const f = d * share;
    const e = d - f;
    const steep = (rise + more * d) * gauss * perDensity;
    const p = steep + before * (1 - share) + behind * share;
    slopes[k] = p;
    slopes[k + 1] = p * along;
    slopes[k + 2] = p * half;
    slopes[k + 3] = steep * t;
    slopes[k + 4] = share;
    slopes[k + 5] = e;
    slopes[k + 6] = f;
    slopes[k + 7] = samples[at + 2] - level - rise * share - before * e - behind * f;
  }
}

function sumOffsetRow(end: number): void {
  let [s0, s1, s2, s3, s4, s5, s6, s7, s8, s9, s10] = sums;
  for (let at = 0; at < end; at += known) {
    const p = slopes[at];
    const pa = slopes[at + 1];
    const pb = slopes[at + 2];
    const q = slopes[at + 3];
    const share = slopes[at + 4];
    const e = slopes[at + 5];
    const f = slopes[at + 6];
    const rest = slopes[at + 7];
    s0 += p * p;
    s1 += p * pa;
    s2 += p * pb;
    s3 += p * q;
    s4 += p;
    s5 += p * share;
    s6 += p * e;
    s7 += p * f;
    s8 += p * rest;
    s9 += rest;
    s10 += rest * rest;
  }
  sums.set([s0, s1, s2, s3, s4, s5, s6, s7, s8, s9, s10], rowA);
}

function sumTurnRow(end: number): void {
  let [s0, s1, s2, s3, s4, s5, s6, s7, s8, s9, s10] = sums.subarray(rowB);
  for (let at = 0; at < end; at += known) {
    const pa = slopes[at + 1];
    const pb = slopes[at + 2];
    const q = slopes[at + 3];
    const share = slopes[at + 4];
    const e = slopes[at + 5];
    const f = slopes[at + 6];
    const rest = slopes[at + 7];
    s0 += pa * pa;
    s1 += pa * pb;
    s2 += pa * q;
    s3 += pa;
    s4 += pa * share;
    s5 += pa * e;
    s6 += pa * f;
    s7 += pa * rest;
    s8 += share * rest;
    s9 += e * rest;
    s10 += f * rest;
  }
  sums.set([s0, s1, s2, s3, s4, s5, s6, s7, s8, s9, s10], rowB);
}

function sumBendRow(end: number): void {
  let [s0, s1, s2, s3, s4, s5, s6, s7, s8, s9] = sums.subarray(rowC);
  for (let at = 0; at < end; at += known) {
    const pb = slopes[at + 2];
    const q = slopes[at + 3];
    const share = slopes[at + 4];
    const e = slopes[at + 5];
    const f = slopes[at + 6];
    const rest = slopes[at + 7];
    s0 += pb * pb;
    s1 += pb * q;
    s2 += pb;
    s3 += pb * share;
    s4 += pb * e;
    s5 += pb * f;
    s6 += pb * rest;
    s7 += share;
    s8 += e;
    s9 += f;
  }
  sums.set([s0, s1, s2, s3, s4, s5, s6, s7, s8, s9], rowC);
}

function sumSigmaRow(end: number): void {
  let [s0, s1, s2, s3, s4, s5, s6, s7, s8, s9, s10] = sums.subarray(rowD);
  for (let at = 0; at < end; at += known) {
    const q = slopes[at + 3];
    const share = slopes[at + 4];
    const e = slopes[at + 5];
    const f = slopes[at + 6];
    const rest = slopes[at + 7];
    s0 += q * q;
    s1 += q;
    s2 += q * share;
    s3 += q * e;
    s4 += q * f;
    s5 += q * rest;
    s6 += share * share;
    s7 += share * f;
    s8 += e * e;
    s9 += e * f;
    s10 += f * f;
  }
  sums.set([s0, s1, s2, s3, s4, s5, s6, s7, s8, s9, s10], rowD);
}
