import { figurePhrase } from '../../words/index.ts';
import type { PlaceDrawing } from './geometry/place-drawing.ts';
import { type At, cornersOf, ink, paintFigure, rim } from './laid-pen.ts';

/** An arrow is at least so long, CSS px: its figure says how far it is. */
const shortest = 34;

/**
 * The subject's bounds with the room around them, a double circle where something is gone or new, and an arrow from where it was to where it is. What is too little to be
 * seen is drawn longer; the figure beside it is what was measured. `full`: size of the original, px; `wide`: of the picture that is shown, pixels of the canvas.
 */
export function paintPlace(
  context: CanvasRenderingContext2D,
  { box, margins, move, changed }: PlaceDrawing,
  full: { readonly width: number; readonly height: number },
  at: At,
  wide: number,
  unit: number,
): void {
  const middle = [((box?.left ?? 0) + (box?.right ?? 1)) / 2, ((box?.top ?? 0) + (box?.bottom ?? 1)) / 2];
  const [middleX = 0.5, middleY = 0.5] = middle;
  const [mx, my] = at(middleX, middleY);
  if (box !== null && margins !== null) {
    stroke(context, unit, (path) => {
      for (const corner of cornersOf(at, box)) path.lineTo(...corner);
      path.closePath();
    });
    const room = (percent: number, x: number, y: number, down: number): void => {
      const [fx, fy] = at(x, y);
      if (percent >= 3) paintFigure(context, `${Math.round(percent)} %`, fx, fy + down, unit);
    };
    room(margins.left, box.left / 2, middleY, 0);
    room(margins.right, (1 + box.right) / 2, middleY, 0);
    room(margins.top, middleX, box.top / 2, 4 * unit);
    room(margins.bottom, middleX, (1 + box.bottom) / 2, 4 * unit);
  }
  for (const { x, y } of changed) {
    const [cx, cy] = at(x, y);
    for (const radius of [wide / 14, wide / 14 - 6 * unit])
      if (radius > 0) stroke(context, unit, (path) => path.arc(cx, cy, radius, 0, 2 * Math.PI));
  }
  if (move === null) return;
  const pxLength = Math.hypot(move.rightPx, move.downPx);
  if (pxLength < 0.05) return;
  const [ex, ey] = at(middleX + move.rightPx / full.width, middleY + move.downPx / full.height);
  const shown = Math.hypot(ex - mx, ey - my);
  const length = Math.max(shortest * unit, shown);
  const [u, v] = [(ex - mx) / shown, (ey - my) / shown];
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
