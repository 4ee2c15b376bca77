/** Curves that clay is drawn along: a wall's middle, a handle's spine, a foot. */
import { type CurveFields, fillCurveFields, type ThickCurve } from '../kernels/curve-field.ts';
import type { Grid } from '../kernels/grid.ts';

/** x or radius, y, half thickness; mm. */
export type ControlPoint = readonly [number, number, number];

/** Points this close look like a curve in a mirror, too. */
const spacingMm = 0.3;

/** A centripetal Catmull-Rom curve through the points (E. Catmull and R. Rom, 1974), finely divided. */
export function thickCurve(points: readonly ControlPoint[]): ThickCurve {
  const dense = points.slice(1).flatMap((to, index) => {
    const from = points[index] ?? to;
    const before = points[index - 1] ?? mirror(from, to);
    const after = points[index + 2] ?? mirror(to, from);
    const pieces = Math.max(2, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / spacingMm));
    return Array.from({ length: pieces }, (_, k) => between(before, from, to, after, k / pieces));
  });
  const last = points.at(-1);
  if (last !== undefined) dense.push(last);
  const column = (axis: 0 | 1 | 2): Float64Array => Float64Array.from(dense, (point) => point[axis]);
  return { x: column(0), y: column(1), half: column(2) };
}

function mirror(from: ControlPoint, to: ControlPoint): ControlPoint {
  return [2 * from[0] - to[0], 2 * from[1] - to[1], from[2]];
}

/** Barry and Goldman's pyramid for knots at the square root of the distances. */
function between(
  p0: ControlPoint,
  p1: ControlPoint,
  p2: ControlPoint,
  p3: ControlPoint,
  share: number,
): ControlPoint {
  const knot = (a: ControlPoint, b: ControlPoint): number =>
    Math.max(1e-6, Math.hypot(b[0] - a[0], b[1] - a[1]) ** 0.5);
  const t1 = knot(p0, p1);
  const t2 = t1 + knot(p1, p2);
  const t3 = t2 + knot(p2, p3);
  const t = t1 + (t2 - t1) * share;
  const blend = (a: ControlPoint, b: ControlPoint, from: number, to: number): ControlPoint => {
    const w = (t - from) / (to - from);
    return [a[0] + (b[0] - a[0]) * w, a[1] + (b[1] - a[1]) * w, a[2] + (b[2] - a[2]) * w];
  };
  const a1 = blend(p0, p1, 0, t1);
  const a2 = blend(p1, p2, t1, t2);
  const a3 = blend(p2, p3, t2, t3);
  return blend(blend(a1, a2, 0, t2), blend(a2, a3, t1, t3), t1, t2);
}

/** The rectangle fields are made over, mm. */
export interface FieldArea {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

const fieldPerMm = 2;

/** All four fields of a curve over an area. */
export function curveFields(points: readonly ControlPoint[], area: FieldArea): CurveFields {
  const fields: CurveFields = {
    distance: emptyGrid(area),
    side: emptyGrid(area),
    along: emptyGrid(area),
    half: emptyGrid(area),
  };
  fillCurveFields(thickCurve(points), fields);
  return fields;
}

function emptyGrid({ left, right, bottom, top }: FieldArea): Grid {
  const columns = Math.ceil((right - left) * fieldPerMm) + 2;
  const rows = Math.ceil((top - bottom) * fieldPerMm) + 2;
  return { values: new Float32Array(columns * rows), columns, rows, left, bottom, perMm: fieldPerMm };
}
