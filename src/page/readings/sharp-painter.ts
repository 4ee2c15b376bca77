import type { TileMark } from './geometry/tile-marks.ts';
import { ink, type LaidRect, paintFigure, rim, type ShareRect } from './laid-pen.ts';

/** A tile of this width and more has room for its figure, CSS px. */
const figureFrom = 46;

/** A disc as large as the blur in each tile that has an edge, and its width where there is room. */
export function paintSharp(
  context: CanvasRenderingContext2D,
  marks: readonly TileMark[],
  rect: LaidRect,
  unit: number,
): void {
  for (const mark of marks) {
    const x = rect.left + mark.x * rect.width;
    const y = rect.top + mark.y * rect.height;
    const side = Math.min(mark.width * rect.width, mark.height * rect.height);
    const radius = mark.radius * side;
    const hasFigure = side >= figureFrom * unit;
    paintDisc(context, mark.judgement, x, hasFigure ? y - 6 * unit : y, Math.min(radius, side * 0.34), unit);
    if (hasFigure)
      paintFigure(
        context,
        mark.widthPx.toFixed(1),
        x,
        rect.top + (mark.y + mark.height / 2) * rect.height - 5 * unit,
        unit,
      );
  }
}

/** The shapes of judgements, open where there is blur so that the picture is seen through. */
function paintDisc(
  context: CanvasRenderingContext2D,
  judgement: TileMark['judgement'],
  x: number,
  y: number,
  radius: number,
  unit: number,
): void {
  const line = (1.6 + (judgement === 'bad' ? 0.8 : 0)) * unit;
  const circle = (): void => {
    context.beginPath();
    context.arc(x, y, radius, 0, 2 * Math.PI);
  };
  circle();
  context.lineWidth = line + 2.4 * unit;
  context.strokeStyle = rim;
  context.stroke();
  context.fillStyle = ink;
  if (judgement === 'good') context.fill();
  if (judgement === 'doubt') {
    context.beginPath();
    context.arc(x, y, radius, Math.PI / 2, (3 * Math.PI) / 2);
    context.fill();
  }
  if (judgement === 'bad') {
    context.beginPath();
    context.moveTo(x - radius, y);
    context.lineTo(x + radius, y);
    context.stroke();
  }
  context.lineWidth = line;
  context.strokeStyle = ink;
  if (judgement === 'bad') context.stroke();
  circle();
  context.stroke();
}

/** Corners of a frame: what lies at the spot stays free. */
export function paintSpot(
  context: CanvasRenderingContext2D,
  spot: ShareRect,
  rect: LaidRect,
  unit: number,
): void {
  const left = rect.left + spot.left * rect.width;
  const top = rect.top + spot.top * rect.height;
  const right = rect.left + spot.right * rect.width;
  const bottom = rect.top + spot.bottom * rect.height;
  const arm = Math.min(16 * unit, (right - left) / 3, (bottom - top) / 3);
  context.beginPath();
  for (const [x, y, dx, dy] of [
    [left, top, 1, 1],
    [right, top, -1, 1],
    [right, bottom, -1, -1],
    [left, bottom, 1, -1],
  ] as const) {
    context.moveTo(x + dx * arm, y);
    context.lineTo(x, y);
    context.lineTo(x, y + dy * arm);
  }
  context.lineWidth = 5 * unit;
  context.strokeStyle = rim;
  context.stroke();
  context.lineWidth = 2.2 * unit;
  context.strokeStyle = ink;
  context.stroke();
}
