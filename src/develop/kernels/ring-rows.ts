/**
 * Rings of rows: a demosaic looks ten rows ahead, and keeps of each intermediate only the rows that are still asked for.
 * Row `row` of a ring (it may be negative) lies at `ringStart`; column 0 of the window lies `ringMargin` samples behind.
 */

/** Samples on each side of the window, and rows ahead: how far a demosaiced pixel looks. */
export const ringMargin = 10;

/** A power of two, more than `ringMargin` and the rows that lie behind. */
export const ringRows = 16;

/** Samples from a row to the next: the window, its margins, and four that vectors may run over. */
export function ringStride(widthPx: number): number {
  return (widthPx + 2 * ringMargin + 4 + 3) & ~3;
}

/** Where a row starts in its ring. */
export function ringStart(row: number, stride: number): number {
  return (row & (ringRows - 1)) * stride;
}

/** Samples of one ring. */
export function ringSamples(widthPx: number): number {
  return ringRows * ringStride(widthPx);
}
