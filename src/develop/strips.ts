import type { Size } from '../image/index.ts';

/** Pixels of a strip, about: 256 kB of float RGB stay in the second-level cache from the mosaic to the bytes. */
const stripPixels = 21_845;

/** Rows of a strip of whole rows. */
export function stripRows({ widthPx, heightPx }: Size): number {
  return Math.min(heightPx, Math.max(1, Math.floor(stripPixels / widthPx)));
}

/** Walks a picture from the top in strips of whole rows. */
export function forEachStrip(size: Size, visit: (rowStart: number, rowEnd: number) => void): void {
  const rows = stripRows(size);
  for (let row = 0; row < size.heightPx; row += rows) visit(row, Math.min(size.heightPx, row + rows));
}
