import type { Placing } from './geometry/placing.ts';

export interface ShareRect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Where the picture lies on the canvas, its pixels. */
export interface LaidRect {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The canvas's place of a place of the original, shares. */
export type At = (x: number, y: number) => readonly [x: number, y: number];

/** `toShown`: from the original to the picture that lies in `rect`. */
export function atOf(rect: LaidRect, { toShown }: Pick<Placing, 'toShown'>): At {
  return (x, y) => {
    const shown = toShown({ x, y });
    return [rect.left + shown.x * rect.width, rect.top + shown.y * rect.height];
  };
}

/** The corners of a rectangle of the original, clockwise from its left top. */
export function cornersOf(at: At, { left, top, right, bottom }: ShareRect): ReturnType<At>[] {
  return [at(left, top), at(right, top), at(right, bottom), at(left, bottom)];
}

/** Black with a white rim is seen on any picture. */
export const ink = '#000000';
export const rim = '#ffffff';
/** A few characters that are read on any picture. */
export function paintFigure(
  context: CanvasRenderingContext2D,
  text: string,
  x: number,
  y: number,
  unit: number,
): void {
  context.font = `500 ${11 * unit}px "Fira Sans", sans-serif`;
  context.textAlign = 'center';
  context.textBaseline = 'alphabetic';
  context.lineJoin = 'round';
  context.lineWidth = 3 * unit;
  context.strokeStyle = rim;
  context.strokeText(text, x, y);
  context.fillStyle = ink;
  context.fillText(text, x, y);
}
