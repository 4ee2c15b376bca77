import { figurePhrase } from '../../words/index.ts';
import type { PlaceDrawing } from './geometry/place-drawing.ts';
import { ink, type LaidRect, paintFigure, rim } from './laid-pen.ts';

/** An arrow is at least so long, CSS px: its figure says how far it is. */
const shortest = 34;

/**
 * The subject's bounds with the room around them, a double circle where something is gone or new, and an arrow from where it was to where it is. What is too little to be
 * seen is drawn longer; the figure beside it is what was measured. `fullWidthPx`: of the frame.
 */
export function paintPlace(
  context: CanvasRenderingContext2D,
  { box, margins, move, changed }: PlaceDrawing,
  fullWidthPx: number,
  rect: LaidRect,
  unit: number,
): void {
  const x = (share: number): number => rect.left + share * rect.width;
  const y = (share: number): number => rect.top + share * rect.height;
  const middle = [((box?.left ?? 0) + (box?.right ?? 1)) / 2, ((box?.top ?? 0) + (box?.bottom ?? 1)) / 2];
  const [mx, my] = [x(middle[0] ?? 0.5), y(middle[1] ?? 0.5)];
  if (box !== null && margins !== null) {
    const [left, top, right, bottom] = [x(box.left), y(box.top), x(box.right), y(box.bottom)];
    stroke(context, unit, (path) => path.rect(left, top, right - left, bottom - top));
    const room = (percent: number, fx: number, fy: number): void => {
      if (percent >= 3) paintFigure(context, `${Math.round(percent)} %`, fx, fy, unit);
    };
    room(margins.left, (x(0) + left) / 2, my);
    room(margins.right, (x(1) + right) / 2, my);
    room(margins.top, mx, (y(0) + top) / 2 + 4 * unit);
    room(margins.bottom, mx, (y(1) + bottom) / 2 + 4 * unit);
  }
  for (const at of changed) {
    for (const radius of [rect.width / 14, rect.width / 14 - 6 * unit]) {
      if (radius > 0) stroke(context, unit, (path) => path.arc(x(at.x), y(at.y), radius, 0, 2 * Math.PI));
    }
  }
  if (move === null) return;
  const pxLength = Math.hypot(move.rightPx, move.downPx);
  if (pxLength < 0.05) return;
  const length = Math.max(shortest * unit, (pxLength / fullWidthPx) * rect.width);
  const [u, v] = [move.rightPx / pxLength, move.downPx / pxLength];
  const [tx, ty] = [mx + u * length, my + v * length];
  const head = 11 * unit;
  stroke(context, 1.6 * unit, (path) => {
    path.moveTo(mx, my);
    path.lineTo(tx, ty);
    path.moveTo(tx - u * head - v * head * 0.6, ty - v * head + u * head * 0.6);
    path.lineTo(tx, ty);
    path.lineTo(tx - u * head + v * head * 0.6, ty - v * head - u * head * 0.6);
  });
  // On the side the arrow does not point to.
  // As the card has it.
  paintFigure(
    context,
    figurePhrase(pxLength, 'px'),
    mx - u * 26 * unit,
    my - v * 20 * unit + 4 * unit,
    1.3 * unit,
  );
}

/** Black within a white rim. */
function stroke(
  context: CanvasRenderingContext2D,
  unit: number,
  draw: (path: CanvasRenderingContext2D) => void,
): void {
  for (const [colour, width] of [
    [rim, 4],
    [ink, 1.8],
  ] as const) {
    context.beginPath();
    draw(context);
    context.lineJoin = 'miter';
    context.strokeStyle = colour;
    context.lineWidth = width * unit;
    context.stroke();
  }
}
