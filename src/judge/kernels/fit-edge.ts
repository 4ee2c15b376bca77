import { edgeEquations } from './edge-equations.ts';
import { sampleNumbers } from './edge-samples.ts';

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
  let left = edgeEquations(samples, count, edge, normal, right);
  const trial = new Float64Array(edgeNumbers);
  for (let round = 0; round < roundsMax; round++) {
    if (!solve(damping)) return -1;
    for (let k = 0; k < edgeNumbers; k++) trial[k] = edge[k] + step[k];
    // A step out of what means something is halved into it.
    if (trial[3] < sigmaMin) trial[3] = Math.max(sigmaMin, edge[3] / 2);
    // With its equations: most steps are taken, and then they are the next one's.
    const tried = edgeEquations(samples, count, trial, triedNormal, triedRight);
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

/** Value of the edge at a place. */
export function edgeValue(edge: Float64Array, d: number): number {
  const t = d / edge[3];
  const share = normalShare(t, Math.exp(-0.5 * t * t));
  return edge[4] + edge[5] * share + d * (edge[6] * (1 - share) + edge[7] * share);
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
