/**
 * 10-90 % rise of an edge that moved steadily across by one pixel: light falls on a box, and its edge is a ramp (its MTF is
 * |sinc(f L)|). Lens blur is added by squares of the rise, which is exact for neither: within 3 % for any mixture of the two.
 */
export const risePerMovedPx = 0.8;

/** An edge across a movement that has less than this share of its square was not moved. */
export const deniedBelow = 0.4;
/** Some edges are read wrong: so large a share of those across the movement deny it. */
export const deniedShare = 0.03;

/** How far the edge was moved that is so wide, where it would be `stillPx` wide by itself and lies with this cosine to the movement; px. */
export function movedPx(widthPx: number, stillPx: number, cosine: number): number {
  return Math.sqrt(Math.max(0, widthPx ** 2 - stillPx ** 2)) / (risePerMovedPx * Math.abs(cosine));
}
