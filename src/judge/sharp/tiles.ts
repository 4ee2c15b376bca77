import type { Size } from '../../image/index.ts';

/** Square tiles from the top left, the last ones cut where they do not come out even. */
export interface Tiles extends Size {
  readonly columns: number;
  readonly rows: number;
  readonly tilePx: number;
}

/** Pixels of the grid. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Along the longer edge. */
const tilesAlong = 12;
/** In smaller ones there is hardly room for an edge. */
const tilePxMin = 48;

export function tilesOf({ widthPx, heightPx }: Size): Tiles {
  const tilePx = Math.max(tilePxMin, Math.ceil(Math.max(widthPx, heightPx) / tilesAlong));
  return {
    widthPx,
    heightPx,
    tilePx,
    columns: Math.max(1, Math.ceil(widthPx / tilePx)),
    rows: Math.max(1, Math.ceil(heightPx / tilePx)),
  };
}

/** Where columns and rows end, shares of the grid. */
export function tileEnds({ columns, rows, tilePx, widthPx, heightPx }: Tiles): {
  columnEnds: number[];
  rowEnds: number[];
} {
  const ends = (count: number, size: number): number[] =>
    Array.from({ length: count }, (_, at) => Math.min(1, ((at + 1) * tilePx) / size));
  return { columnEnds: ends(columns, widthPx), rowEnds: ends(rows, heightPx) };
}

/** Index of the tile that a place lies in, row by row. */
export function tileAt(
  { columns, rows, tilePx }: Tiles,
  { x, y }: { readonly x: number; readonly y: number },
): number {
  const column = Math.min(columns - 1, Math.max(0, Math.floor(x / tilePx)));
  const row = Math.min(rows - 1, Math.max(0, Math.floor(y / tilePx)));
  return row * columns + column;
}

/** Every tile, row by row. */
export function tileBoxes({ columns, rows, tilePx, widthPx, heightPx }: Tiles): Box[] {
  return Array.from({ length: columns * rows }, (_, index) => {
    const left = (index % columns) * tilePx;
    const top = Math.floor(index / columns) * tilePx;
    return { left, top, right: Math.min(widthPx, left + tilePx), bottom: Math.min(heightPx, top + tilePx) };
  });
}

export function isInside(
  { x, y }: { readonly x: number; readonly y: number },
  { left, top, right, bottom }: Box,
): boolean {
  return x >= left && x < right && y >= top && y < bottom;
}
