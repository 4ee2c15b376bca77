import type { TileMark } from './geometry/tile-marks.ts';
import { type At, cornersOf, ink, paintFigure, rim, type ShareRect } from './laid-pen.ts';

/** A tile of this width and more has room for its figure, CSS px. */
const figureFrom = 46;

/** A disc as large as the blur in each tile that has an edge, and its width where there is room. */
export function paintSharp(
  context: CanvasRenderingContext2D,
  marks: readonly TileMark[],
  at: At,
  unit: number,
): void {
  for (const mark of marks) {
    const [x, y] = at(mark.x, mark.y);
    const across = along(at(mark.x - mark.width / 2, mark.y), at(mark.x + mark.width / 2, mark.y));
    const down = along(at(mark.x, mark.y - mark.height / 2), at(mark.x, mark.y + mark.height / 2));
    const side = Math.min(across, down);
    const radius = mark.radius * side;
    const hasFigure = side >= figureFrom * unit;
    paintDisc(context, mark.judgement, x, hasFigure ? y - 6 * unit : y, Math.min(radius, side * 0.34), unit);
    if (hasFigure) paintFigure(context, mark.widthPx.toFixed(1), x, y + down / 2 - 5 * unit, unit);
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
export function paintSpot(context: CanvasRenderingContext2D, spot: ShareRect, at: At, unit: number): void {
  const corners = cornersOf(at, spot);
  context.beginPath();
  corners.forEach((corner, index) => {
    for (const other of [corners[(index + 3) % 4], corners[(index + 1) % 4]]) {
      if (other === undefined) continue;
      const length = along(corner, other);
      const arm = Math.min(16 * unit, length / 3) / length;
      context.moveTo(...corner);
      context.lineTo(corner[0] + (other[0] - corner[0]) * arm, corner[1] + (other[1] - corner[1]) * arm);
    }
  });
  context.lineCap = 'square';
  context.lineWidth = 5 * unit;
  context.strokeStyle = rim;
  context.stroke();
  context.lineWidth = 2.2 * unit;
  context.strokeStyle = ink;
  context.stroke();
  context.lineCap = 'butt';
}

function along(from: ReturnType<At>, to: ReturnType<At>): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}
