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
