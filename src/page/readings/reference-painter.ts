import type { Placing } from './geometry/placing.ts';
import type { LaidRect } from './laid-pen.ts';
import { fittedRect } from './laid-rect.ts';

/** The picture that a frame is held against, over the frame: original on original, wherever their looks put them. */
export function paintReference(
  context: CanvasRenderingContext2D,
  bitmap: ImageBitmap,
  of: Placing,
  placing: Placing,
  rect: LaidRect,
): void {
  if (of.isPlain && placing.isPlain) {
    const at = fittedRect(rect, bitmap);
    context.drawImage(bitmap, at.left, at.top, at.width, at.height);
    return;
  }
  const transform = referenceTransform(bitmap, of, placing, rect);
  if (transform === null) return;
  context.save();
  context.transform(...transform);
  context.drawImage(bitmap, 0, 0);
  context.restore();
}

type Transform = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** A corner that a canvas, which knows no perspective, would put farther off than this is not drawn, canvas px. */
const offMaxPx = 1.5;

/** Pixels of the reference's picture to those of the canvas; null where levelled lines make it more than a canvas can turn. */
export function referenceTransform(
  { width, height }: { readonly width: number; readonly height: number },
  of: Placing,
  placing: Placing,
  rect: LaidRect,
): Transform | null {
  const fitted = fittedRect({ left: 0, top: 0, ...placing.original }, of.original);
  const place = (x: number, y: number): readonly [number, number] => {
    const inReference = of.toOriginal({ x, y });
    const shown = placing.toShown({
      x: (fitted.left + inReference.x * fitted.width) / placing.original.width,
      y: (fitted.top + inReference.y * fitted.height) / placing.original.height,
    });
    return [rect.left + shown.x * rect.width, rect.top + shown.y * rect.height];
  };
  const [origin, right, down, far] = [place(0, 0), place(1, 0), place(0, 1), place(1, 1)];
  const offPx = Math.hypot(origin[0] + far[0] - right[0] - down[0], origin[1] + far[1] - right[1] - down[1]);
  if (!(offPx <= offMaxPx)) return null;
  return [
    (right[0] - origin[0]) / width,
    (right[1] - origin[1]) / width,
    (down[0] - origin[0]) / height,
    (down[1] - origin[1]) / height,
    origin[0],
    origin[1],
  ];
}
