import { sampleNumbers } from './edge-samples.ts';
import { normalTable, placeOf } from './normal-table.ts';

/**
 * What is fitted to an edge: 0 offset (px across), 1 turn (rad, small), 2 bend (1/px), 3 sigma (px), 4 level before,
 * 5 rise, 6 slope before, 7 slope behind (value/px).
 */
export const edgeNumbers = 8;

const sigmaMin = 0.2;
/** Normal equations and right side. */
const matrixLength = edgeNumbers * edgeNumbers;
const normal = new Float64Array(matrixLength);
const right = new Float64Array(edgeNumbers);
const factor = new Float64Array(matrixLength);
const step = new Float64Array(edgeNumbers);
const triedNormal = new Float64Array(matrixLength);
const triedRight = new Float64Array(edgeNumbers);

/**
 * Least squares (Levenberg and Marquardt) of a straight or slightly bent edge that was blurred by a Gaussian:
 * d = across - offset - turn * along - bend * along² / 2, and the value
 * level + rise * Φ(d / sigma) + slopeBefore * d * (1 - Φ) + slopeBehind * d * Φ.
 *
 * `roundsMax`: steps of the search; from a good start four are enough. `edge` holds the start and afterwards the result. `errors` (length 8) becomes the standard deviation of each. Returns
 * the mean square of what is left over, or -1 where there is no solution.
 */
export function fitEdge(
  samples: Float64Array,
  count: number,
  roundsMax: number,
  edge: Float64Array,
  errors: Float64Array,
): number {
  if (edge.length !== edgeNumbers || errors.length !== edgeNumbers)
    throw new RangeError('fitEdge: sizes differ');
  if (samples.length < count * sampleNumbers) throw new RangeError('fitEdge: too few samples');
  if (count < 4 * edgeNumbers) return -1;
  let damping = 1e-3;
  let left = accumulate(samples, count, edge, normal, right);
  const trial = new Float64Array(edgeNumbers);
  for (let round = 0; round < roundsMax; round++) {
    if (!solve(damping)) return -1;
    for (let k = 0; k < edgeNumbers; k++) trial[k] = edge[k] + step[k];
    // A step out of what means something is halved into it.
    if (trial[3] < sigmaMin) trial[3] = Math.max(sigmaMin, edge[3] / 2);
    // With its equations: most steps are taken, and then they are the next one's.
    const tried = accumulate(samples, count, trial, triedNormal, triedRight);
    if (tried < left) {
      const gain = (left - tried) / (left + 1e-30);
      const moved = Math.abs(step[0]) + Math.abs(step[3]);
      edge.set(trial);
      normal.set(triedNormal);
      right.set(triedRight);
      left = tried;
      damping = Math.max(1e-9, damping / 8);
      // Steps shrink by squares here: the next would be less than a millionth of a pixel.
      if (gain < 1e-5 && moved < 1e-3) break;
    } else {
      damping *= 6;
      if (damping > 1e6) break;
    }
  }
  const variance = left / (count - edgeNumbers);
  if (!inverseDiagonal(errors)) return -1;
  for (let k = 0; k < edgeNumbers; k++) errors[k] = Math.sqrt(errors[k] * variance);
  return left / count;
}

/** Φ(t) by Abramowitz and Stegun 7.1.26, whose error is below 1.5e-7; `gauss` is exp(-t²/2). */
export function normalShare(t: number, gauss: number): number {
  const z = Math.abs(t) * Math.SQRT1_2;
  const k = 1 / (1 + 0.3275911 * z);
  const tail =
    0.5 *
    k *
    (0.254829592 + k * (-0.284496736 + k * (1.421413741 + k * (-1.453152027 + k * 1.061405429)))) *
    gauss;
  return t >= 0 ? 1 - tail : tail;
}

const rootTwoPi = Math.sqrt(2 * Math.PI);

/** Value of the edge at a place. */
export function edgeValue(edge: Float64Array, d: number): number {
  const t = d / edge[3];
  const share = normalShare(t, Math.exp(-0.5 * t * t));
  return edge[4] + edge[5] * share + d * (edge[6] * (1 - share) + edge[7] * share);
}

/**
 * Fills the equations (`matrix` its upper half and what mirrors it, `side` the right side) at an edge; returns the sum of
 * squares left over. Sums lie in variables of their own: this is where a fit spends its time.
 */
function accumulate(
  samples: Float64Array,
  count: number,
  edge: Float64Array,
  matrix: Float64Array,
  side: Float64Array,
): number {
  const [offset, turn, bend, sigma, level, rise, before, behind] = edge;
  const perSigma = 1 / sigma;
  const perDensity = perSigma / rootTwoPi;
  const more = behind - before;
  let [left, r0, r1, r2, r3, r4, r5, r6, r7] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  let [m00, m01, m02, m03, m04, m05, m06, m07] = [0, 0, 0, 0, 0, 0, 0, 0];
  let [m11, m12, m13, m14, m15, m16, m17] = [0, 0, 0, 0, 0, 0, 0];
  let [m22, m23, m24, m25, m26, m27] = [0, 0, 0, 0, 0, 0];
  let [m33, m34, m35, m36, m37] = [0, 0, 0, 0, 0];
  let [m45, m46, m47, m55, m57, m66, m67, m77] = [0, 0, 0, 0, 0, 0, 0, 0];
  const end = count * sampleNumbers;
  for (let at = 0; at < end; at += sampleNumbers) {
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
    // Slopes by what is fitted, the first four with their signs turned: e and f belong to the slopes before and behind.
    const f = d * share;
    const e = d - f;
    const steep = (rise + more * d) * gauss * perDensity;
    const p = steep + before * (1 - share) + behind * share;
    const pa = p * along;
    const pb = p * half;
    const q = steep * t;
    const rest = samples[at + 2] - level - rise * share - before * e - behind * f;
    left += rest * rest;
    r0 += p * rest;
    r1 += pa * rest;
    r2 += pb * rest;
    r3 += q * rest;
    r4 += rest;
    r5 += share * rest;
    r6 += e * rest;
    r7 += f * rest;
    m00 += p * p;
    m01 += p * pa;
    m02 += p * pb;
    m03 += p * q;
    m04 += p;
    m05 += p * share;
    m06 += p * e;
    m07 += p * f;
    m11 += pa * pa;
    m12 += pa * pb;
    m13 += pa * q;
    m14 += pa;
    m15 += pa * share;
    m16 += pa * e;
    m17 += pa * f;
    m22 += pb * pb;
    m23 += pb * q;
    m24 += pb;
    m25 += pb * share;
    m26 += pb * e;
    m27 += pb * f;
    m33 += q * q;
    m34 += q;
    m35 += q * share;
    m36 += q * e;
    m37 += q * f;
    m45 += share;
    m46 += e;
    m47 += f;
    m55 += share * share;
    m57 += share * f;
    m66 += e * e;
    m67 += e * f;
    m77 += f * f;
  }
  side.set([-r0, -r1, -r2, -r3, r4, r5, r6, r7]);
  matrix.set([m00, m01, m02, m03, -m04, -m05, -m06, -m07]);
  matrix.set([m01, m11, m12, m13, -m14, -m15, -m16, -m17], 8);
  matrix.set([m02, m12, m22, m23, -m24, -m25, -m26, -m27], 16);
  matrix.set([m03, m13, m23, m33, -m34, -m35, -m36, -m37], 24);
  matrix.set([-m04, -m14, -m24, -m34, count, m45, m46, m47], 32);
  // share * e is share * d less share * f, and share * d is f.
  matrix.set([-m05, -m15, -m25, -m35, m45, m55, m47 - m57, m57], 40);
  matrix.set([-m06, -m16, -m26, -m36, m46, m47 - m57, m66, m67], 48);
  matrix.set([-m07, -m17, -m27, -m37, m47, m57, m67, m77], 56);
  return left;
}

/** Cholesky factor of `normal` with its diagonal raised; false where it is not positive. */
function decompose(damping: number): boolean {
  for (let row = 0; row < edgeNumbers; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = normal[row * edgeNumbers + column];
      if (row === column) sum += damping * sum;
      for (let k = 0; k < column; k++)
        sum -= factor[row * edgeNumbers + k] * factor[column * edgeNumbers + k];
      if (row === column) {
        if (!(sum > 0)) return false;
        factor[row * edgeNumbers + row] = Math.sqrt(sum);
      } else {
        factor[row * edgeNumbers + column] = sum / factor[column * edgeNumbers + column];
      }
    }
  }
  return true;
}

function solve(damping: number): boolean {
  if (!decompose(damping)) return false;
  substitute(right, step);
  return true;
}

/** Solves factor factorᵀ x = b. */
function substitute(b: Float64Array, x: Float64Array): void {
  for (let row = 0; row < edgeNumbers; row++) {
    let sum = b[row];
    for (let k = 0; k < row; k++) sum -= factor[row * edgeNumbers + k] * x[k];
    x[row] = sum / factor[row * edgeNumbers + row];
  }
  for (let row = edgeNumbers - 1; row >= 0; row--) {
    let sum = x[row];
    for (let k = row + 1; k < edgeNumbers; k++) sum -= factor[k * edgeNumbers + row] * x[k];
    x[row] = sum / factor[row * edgeNumbers + row];
  }
}

const unit = new Float64Array(edgeNumbers);
const column = new Float64Array(edgeNumbers);

function inverseDiagonal(out: Float64Array): boolean {
  if (!decompose(0)) return false;
  for (let k = 0; k < edgeNumbers; k++) {
    unit.fill(0);
    unit[k] = 1;
    substitute(unit, column);
    out[k] = column[k];
  }
  return true;
}
