import { applyMatrix, deltaE2000, type Matrix3, type Vector3, xyzToLab } from '../../colour/index.ts';
import type { CameraProfile } from '../../facts/index.ts';
import { type ColourPair, patchWeight } from './fit-colours.ts';
import { leastSquares } from './homography.ts';
import { greyPatches } from './published-patches.ts';
import { summarise } from './summary.ts';

/** A patch that a profile may be made from. */
export interface ProfilePatch extends ColourPair {
  /** 1 … 24. */
  readonly patch: number;
}

/** Six freedoms are fitted; with fewer patches than this a profile is guesswork. */
const patchesMin = 16;

/**
 * A camera profile: the matrix from light to XYZ D50 under which the greys keep their white exactly and the CIEDE2000 of the
 * patches is least (least squares in linear light first, refined from there), and what it does to patches that it has not
 * seen. Null where too few patches or no grey are left. `multipliers`: what the patches' light was balanced by, if it was.
 */
export function makeProfile(
  patches: readonly ProfilePatch[],
  multipliers: CameraProfile['multipliers'],
): CameraProfile | null {
  if (patches.length < patchesMin) return null;
  const matrix = refinedMatrix(patches);
  const fit = matrix === null ? null : summarise(patches.map((each) => labPair(matrix, each)));
  const without = patches.flatMap((left) => {
    const other = refinedMatrix(patches.filter((each) => each !== left));
    return other === null ? [] : [labPair(other, left)];
  });
  const leaveOneOut = without.length === patches.length ? summarise(without) : null;
  if (matrix === null || fit === null || leaveOneOut === null) return null;
  return { toXyz: matrix, multipliers, fit, leaveOneOut, patches: patches.length };
}

function labPair(matrix: Matrix3, { patch, light, xyz }: ProfilePatch) {
  return { patch, measured: xyzToLab(applyMatrix(matrix, light)), published: xyzToLab(xyz) };
}

/** Every matrix that keeps a white: its rows are the white's own part and two numbers along what is left of space. */
interface Family {
  matrix(numbers: readonly number[]): Matrix3;
  readonly start: readonly number[];
}

function refinedMatrix(patches: readonly ProfilePatch[]): Matrix3 | null {
  const family = familyOf(patches);
  if (family === null) return null;
  const labs = patches.map(({ xyz }) => xyzToLab(xyz));
  const errors = (numbers: readonly number[]): number[] => {
    const matrix = family.matrix(numbers);
    return patches.map(({ light }, index) => {
      const lab = labs[index];
      return lab === undefined ? 0 : deltaE2000(xyzToLab(applyMatrix(matrix, light)), lab);
    });
  };
  return family.matrix(leastErrors(errors, family.start));
}

function familyOf(patches: readonly ProfilePatch[]): Family | null {
  const greys = patches.filter(({ patch }) => greyPatches.includes(patch));
  if (greys.length === 0) return null;
  const light = sum(greys.map((each) => each.light));
  const white = sum(greys.map(({ xyz }) => xyz));
  const length2 = dot(light, light);
  if (!(length2 > 0)) return null;
  const [p, q] = across(light);
  const matrix = (numbers: readonly number[]): Matrix3 => {
    const row = (index: number): Vector3 => {
      const own = (white[index] ?? 0) / length2;
      const [a = 0, b = 0] = numbers.slice(2 * index, 2 * index + 2);
      return [
        own * light[0] + a * p[0] + b * q[0],
        own * light[1] + a * p[1] + b * q[1],
        own * light[2] + a * p[2] + b * q[2],
      ];
    };
    return [...row(0), ...row(1), ...row(2)];
  };
  // Least squares of what the white's own part leaves, each row by itself.
  const start: number[] = [];
  for (const index of [0, 1, 2]) {
    const rows: number[][] = [];
    const right: number[] = [];
    for (const each of patches) {
      const weight = patchWeight(each.xyz);
      rows.push([weight * dot(p, each.light), weight * dot(q, each.light)]);
      right.push(
        weight * ((each.xyz[index] ?? 0) - ((white[index] ?? 0) * dot(light, each.light)) / length2),
      );
    }
    const solved = leastSquares(rows, right);
    if (solved === null) return null;
    start.push(...solved);
  }
  return { matrix, start };
}

/** Rounds are few: each is nearly quadratic, and CIEDE2000 has a corner at 0 that none gets over. */
const roundsMax = 20;

/**
 * Numbers near `start` that make the sum of squares of `errors` least: Levenberg and Marquardt's steps with differences for
 * slopes (D. W. Marquardt, SIAM J. Appl. Math. 11 (1963) 431-441). Never worse than `start`.
 */
function leastErrors(
  errors: (numbers: readonly number[]) => number[],
  start: readonly number[],
): readonly number[] {
  let best = [...start];
  let now = errors(best);
  let least = dotMany(now, now);
  let damping = 1e-3;
  for (let round = 0; round < roundsMax; round++) {
    const scale = Math.max(1e-6, ...best.map(Math.abs));
    const slopes = best.map((_, k) => {
      const moved = best.map((value, index) => (index === k ? value + 1e-5 * scale : value));
      return errors(moved).map((value, index) => (value - (now[index] ?? 0)) / (1e-5 * scale));
    });
    const before = least;
    for (let attempt = 0; attempt < 5; attempt++) {
      const step = dampedStep(slopes, now, damping);
      const moved = step === null ? best : best.map((value, k) => value + (step[k] ?? 0));
      const there = errors(moved);
      const sumThere = dotMany(there, there);
      if (sumThere < least) {
        best = moved;
        now = there;
        least = sumThere;
        damping /= 5;
        break;
      }
      damping *= 6;
    }
    if (!(least < before * (1 - 1e-5))) break;
  }
  return best;
}

function dampedStep(
  slopes: readonly (readonly number[])[],
  now: readonly number[],
  damping: number,
): number[] | null {
  // Rows of the errors, then one for each number that holds it back.
  const rows = now.map((_, index) => slopes.map((slope) => slope[index] ?? 0));
  const right = now.map((value) => -value);
  slopes.forEach((slope, k) => {
    rows.push(slopes.map((_, index) => (index === k ? Math.sqrt(damping * dotMany(slope, slope)) : 0)));
    right.push(0);
  });
  return leastSquares(rows, right);
}

function dotMany(a: readonly number[], b: readonly number[]): number {
  return a.reduce((total, value, index) => total + value * (b[index] ?? 0), 0);
}

function dot(a: Vector3, b: Vector3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function sum(vectors: readonly Vector3[]): Vector3 {
  return vectors.reduce<Vector3>((a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]], [0, 0, 0]);
}

/** Two directions at right angles to a vector and to each other. */
function across(v: Vector3): readonly [Vector3, Vector3] {
  const first = unit([-v[1], v[0], 0]);
  return [first, unit(cross(v, first))];
}

function cross(a: Vector3, b: Vector3): Vector3 {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function unit(v: Vector3): Vector3 {
  const length = Math.hypot(...v) || 1;
  return [v[0] / length, v[1] / length, v[2] / length];
}
