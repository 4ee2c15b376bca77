/** Fields around a thick curve in a plane. Kernel; the caller makes the grids (`core/ware/thick-curve.ts`). */
import type { Grid } from './grid.ts';

/** A polyline with a half thickness at each point, close enough together to look like a curve. */
export interface ThickCurve {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly half: Float64Array;
}

export interface CurveFields {
  /** Distance to the curve less its half thickness there: negative in the clay. */
  readonly distance: Grid;
  /** Distance to the curve itself, positive on its right hand as it runs, negative on its left. */
  readonly side: Grid;
  /** Share of the curve's length at its nearest point, 0 … 1. */
  readonly along: Grid;
  /** Half thickness at the nearest point. */
  readonly half: Grid;
}

/** Points looked at in the coarse search, then how far around the best one. */
const stride = 8;

/** Fills all four grids, which have one shape, and returns nothing. Nearest point by coarse, then fine search. */
export function fillCurveFields(curve: ThickCurve, fields: CurveFields): void {
  const { columns, rows, left, bottom, perMm } = fields.distance;
  const nearest = new Float64Array(4);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      nearestOnCurve(curve, left + column / perMm, bottom + row / perMm, nearest);
      const at = row * columns + column;
      fields.distance.values[at] = nearest[0];
      fields.side.values[at] = nearest[1];
      fields.along.values[at] = nearest[2];
      fields.half.values[at] = nearest[3];
    }
  }
}

function nearestOnCurve(curve: ThickCurve, px: number, py: number, out: Float64Array): void {
  const { x, y, half } = curve;
  const segments = x.length - 1;
  let best = 0;
  let bestScore = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= segments; k += stride) {
    const dx = px - x[k];
    const dy = py - y[k];
    // Not hypot, which guards against overflow and takes five times as long.
    const score = Math.sqrt(dx * dx + dy * dy) - half[k];
    if (score < bestScore) {
      bestScore = score;
      best = k;
    }
  }
  bestScore = Number.POSITIVE_INFINITY;
  const first = Math.max(0, best - stride - 1);
  const last = Math.min(segments - 1, best + stride);
  for (let k = first; k <= last; k++) {
    const ex = x[k + 1] - x[k];
    const ey = y[k + 1] - y[k];
    const wx = px - x[k];
    const wy = py - y[k];
    const t = Math.min(1, Math.max(0, (wx * ex + wy * ey) / (ex * ex + ey * ey)));
    const ax = wx - ex * t;
    const ay = wy - ey * t;
    const away = Math.sqrt(ax * ax + ay * ay);
    const halfHere = half[k] + (half[k + 1] - half[k]) * t;
    if (away - halfHere < bestScore) {
      bestScore = away - halfHere;
      out[0] = bestScore;
      out[1] = ey * wx - ex * wy >= 0 ? away : -away;
      out[2] = (k + t) / segments;
      out[3] = halfHere;
    }
  }
}
