/**
 * A similarity of the plane: z goes to m z + t, with z = x + iy, x to the right and y down, so that the angle of m is a
 * turn clockwise as the picture is seen and its size is the change of size.
 */
export interface Similarity {
  readonly re: number;
  readonly im: number;
  readonly tx: number;
  readonly ty: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export const identity: Similarity = { re: 1, im: 0, tx: 0, ty: 0 };

export function applyTo({ re, im, tx, ty }: Similarity, { x, y }: Point): Point {
  return { x: re * x - im * y + tx, y: im * x + re * y + ty };
}

/** Turned by `degrees` and made larger by `scale` about `from`, which goes to `to`. */
export function similarityAbout(degrees: number, scale: number, from: Point, to: Point): Similarity {
  const re = scale * Math.cos((degrees * Math.PI) / 180);
  const im = scale * Math.sin((degrees * Math.PI) / 180);
  return { re, im, tx: to.x - re * from.x + im * from.y, ty: to.y - im * from.x - re * from.y };
}

/** First `second`, then `first`. */
export function after(first: Similarity, second: Similarity): Similarity {
  const moved = applyTo(first, { x: second.tx, y: second.ty });
  return {
    re: first.re * second.re - first.im * second.im,
    im: first.re * second.im + first.im * second.re,
    tx: moved.x,
    ty: moved.y,
  };
}

/** What undoes it; m must not be 0. */
export function inverseOf({ re, im, tx, ty }: Similarity): Similarity {
  const size = re * re + im * im;
  const [ire, iim] = [re / size, -im / size];
  return { re: ire, im: iim, tx: -(ire * tx - iim * ty), ty: -(iim * tx + ire * ty) };
}

export function scaleOf({ re, im }: Similarity): number {
  return Math.hypot(re, im);
}

export function degreesOf({ re, im }: Similarity): number {
  return (Math.atan2(im, re) * 180) / Math.PI;
}

/** From places of a plane to those of one `factor` times as fine: block means, see `reducePlane`. */
export function toFiner(factor: number): Similarity {
  return { re: factor, im: 0, tx: (factor - 1) / 2, ty: (factor - 1) / 2 };
}
