/** A point, or a place on a grid of patches. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A point that lies at a place of a grid. */
export interface Pair {
  readonly from: Point;
  readonly to: Point;
}

/** Plane to plane, nine numbers in row order, the last 1: x' = (a x + b y + c) / (g x + h y + 1). */
export type Homography = readonly number[];

export function applyHomography(h: Homography, { x, y }: Point): Point {
  const [a = 1, b = 0, c = 0, d = 0, e = 1, f = 0, g = 0, i = 0] = h;
  const w = g * x + i * y + 1;
  return { x: (a * x + b * y + c) / w, y: (d * x + e * y + f) / w };
}

/**
 * The homography that takes `from` to `to` with the least squares of x' (g x + h y + 1) - (a x + b y + c), and the same of
 * y'. With `affine` g and h are 0. Null where the points lie so that there is none. At least 4 pairs (3 for an affine one).
 * R. Hartley, A. Zisserman, "Multiple View Geometry in Computer Vision", 2nd ed., 4.1 (inhomogeneous solution).
 */
export function fitHomography(pairs: readonly Pair[], affine: boolean): Homography | null {
  const unknowns = affine ? 6 : 8;
  if (pairs.length * 2 < unknowns) return null;
  // Conditioned: points of the picture about their middle and in units of their spread.
  const n = pairs.length;
  const mx = pairs.reduce((sum, { to }) => sum + to.x, 0) / n;
  const my = pairs.reduce((sum, { to }) => sum + to.y, 0) / n;
  const spread = pairs.reduce((sum, { to }) => sum + Math.hypot(to.x - mx, to.y - my), 0) / n;
  if (!(spread > 0)) return null;
  const rows: number[][] = [];
  const right: number[] = [];
  for (const { from, to } of pairs) {
    const u = (to.x - mx) / spread;
    const v = (to.y - my) / spread;
    const tail = (value: number): number[] => (affine ? [] : [-from.x * value, -from.y * value]);
    rows.push([from.x, from.y, 1, 0, 0, 0, ...tail(u)], [0, 0, 0, from.x, from.y, 1, ...tail(v)]);
    right.push(u, v);
  }
  const solved = leastSquares(rows, right);
  if (solved === null) return null;
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = solved;
  return [
    a * spread + g * mx,
    b * spread + h * mx,
    c * spread + mx,
    d * spread + g * my,
    e * spread + h * my,
    f * spread + my,
    g,
    h,
    1,
  ];
}

/** Root of the mean square distance of where pairs lie from where they should. */
export function homographyError(h: Homography, pairs: readonly Pair[]): number {
  const sum = pairs.reduce((total, { from, to }) => {
    const at = applyHomography(h, from);
    return total + (at.x - to.x) ** 2 + (at.y - to.y) ** 2;
  }, 0);
  return Math.sqrt(sum / Math.max(1, pairs.length));
}

/** x that makes |A x - b| least, by the normal equations; null where A's columns depend on each other. */
export function leastSquares(
  rows: readonly (readonly number[])[],
  right: readonly number[],
): number[] | null {
  const size = rows[0]?.length ?? 0;
  const normal = Array.from({ length: size }, () => new Array<number>(size + 1).fill(0));
  rows.forEach((row, index) => {
    normal.forEach((line, i) => {
      const own = row[i] ?? 0;
      if (own === 0) return;
      for (let j = 0; j < size; j++) line[j] = (line[j] ?? 0) + own * (row[j] ?? 0);
      line[size] = (line[size] ?? 0) + own * (right[index] ?? 0);
    });
  });
  return solve(normal);
}

/** Gauss and Jordan with the largest pivot of the column; `lines` hold the right side last and are overwritten. */
function solve(lines: number[][]): number[] | null {
  const size = lines.length;
  for (let column = 0; column < size; column++) {
    let best = column;
    for (let row = column + 1; row < size; row++) {
      if (Math.abs(lines[row]?.[column] ?? 0) > Math.abs(lines[best]?.[column] ?? 0)) best = row;
    }
    const pivotLine = lines[best];
    const swapped = lines[column];
    if (pivotLine === undefined || swapped === undefined) return null;
    lines[best] = swapped;
    lines[column] = pivotLine;
    const pivot = pivotLine[column] ?? 0;
    if (!(Math.abs(pivot) > 1e-12)) return null;
    for (let j = column; j <= size; j++) pivotLine[j] = (pivotLine[j] ?? 0) / pivot;
    for (const line of lines) {
      const factor = line === pivotLine ? 0 : (line[column] ?? 0);
      if (factor === 0) continue;
      for (let j = column; j <= size; j++) line[j] = (line[j] ?? 0) - factor * (pivotLine[j] ?? 0);
    }
  }
  return lines.map((line) => line[size] ?? 0);
}
