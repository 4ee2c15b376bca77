import type { TargetCell } from './geometry/target-cells.ts';
import { type At, ink, paintFigure, rim } from './laid-pen.ts';

/** A patch of this width and more has room for its figure, CSS px. */
const figureFrom = 26;

/** Over each patch, split along its diagonal: published and measured; figures where there is room, rims where it is off. */
export function paintTarget(
  context: CanvasRenderingContext2D,
  cells: readonly TargetCell[],
  goodMax: number,
  at: At,
  unit: number,
): void {
  for (const { patch, corners, middle } of cells) {
    const points = corners.map(([x, y]) => at(x, y));
    const [a, b, c, d] = points;
    if (a === undefined || b === undefined || c === undefined || d === undefined) continue;
    fill(context, [a, b, d], patch.published);
    if (patch.measured !== null) fill(context, [b, c, d], patch.measured);
    const isOff = patch.deltaE00 !== null && patch.deltaE00 > goodMax;
    outline(context, [a, b, c, d], rim, (isOff ? 5 : 2.5) * unit);
    outline(context, [a, b, c, d], ink, (isOff ? 2.6 : 1) * unit);
    const width = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (patch.deltaE00 === null || width < figureFrom * unit) continue;
    const [x, y] = at(...middle);
    paintFigure(context, patch.deltaE00.toFixed(1), x, y + 4 * unit, unit);
  }
}

type Point = readonly [x: number, y: number];

function fill(context: CanvasRenderingContext2D, points: readonly Point[], colour: string): void {
  trace(context, points);
  context.fillStyle = colour;
  context.fill();
}

function outline(
  context: CanvasRenderingContext2D,
  points: readonly Point[],
  colour: string,
  width: number,
): void {
  trace(context, points);
  context.lineWidth = width;
  context.strokeStyle = colour;
  context.stroke();
}

function trace(context: CanvasRenderingContext2D, points: readonly Point[]): void {
  context.beginPath();
  for (const [x, y] of points) context.lineTo(x, y);
  context.closePath();
}
