import { type LostMap, lostBits, type Mosaic, type Orientation } from '../../facts/index.ts';
import type { Rgb8, Size } from '../../image/index.ts';
import { lostCellsOfMosaic, lostCellsOfPicture } from '../kernels/lost-cells.ts';
import { uprightShare } from '../sharp/upright-sharp.ts';

/** Cells along the longer edge: one is 25 px of a 24-megapixel frame, 5 px of a picture that fills a screen. */
const cellsAlong = 240;
/** More runs than this are glitter: the map is made half as fine, so that it stays within some tens of kilobytes. */
const runsMax = 8000;

interface Cells {
  readonly columns: number;
  readonly rows: number;
  readonly bits: Uint8Array;
}

/** Of a mosaic, upright. `limits`: where its four places saturate; `mask`: as `clippedBlocks` makes it. */
export function lostMapOfMosaic(mosaic: Mosaic, limits: Float64Array, mask: Uint8Array): LostMap {
  const { values, widthPx, heightPx, filters, orientation } = mosaic;
  const cells = cellsFor({ widthPx: widthPx >> 1, heightPx: heightPx >> 1 });
  const places = Uint8Array.from(filters, (filter) => channelBits[filter] ?? 0);
  const { columns, rows, bits } = cells;
  lostCellsOfMosaic(values, widthPx, heightPx, limits, places, mask, columns, rows, bits);
  return mapOf(upright(cells, orientation));
}

/** Of a finished picture. `mask`: as `clippedPixels` makes it. */
export function lostMapOfPicture({ data, widthPx, heightPx }: Rgb8, mask: Uint8Array): LostMap {
  const cells = cellsFor({ widthPx, heightPx });
  const { columns, rows, bits } = cells;
  lostCellsOfPicture(data, widthPx, heightPx, channelBits, mask, columns, rows, bits);
  return mapOf(cells);
}

/** Of filters 0, 1 and 2. */
const channelBits = Uint8Array.of(lostBits.red, lostBits.green, lostBits.blue);

function cellsFor({ widthPx, heightPx }: Size): Cells {
  const scale = Math.min(1, cellsAlong / Math.max(1, widthPx, heightPx));
  const columns = Math.max(1, Math.round(widthPx * scale));
  const rows = Math.max(1, Math.round(heightPx * scale));
  return { columns, rows, bits: new Uint8Array(columns * rows) };
}

function upright(cells: Cells, orientation: Orientation): Cells {
  if (orientation === 1) return cells;
  const { columns, rows, bits } = cells;
  const [across, down] = orientation >= 5 ? [rows, columns] : [columns, rows];
  const out = new Uint8Array(bits.length);
  bits.forEach((lost, at) => {
    if (lost === 0) return;
    const middle = [((at % columns) + 0.5) / columns, (Math.floor(at / columns) + 0.5) / rows] as const;
    const [x, y] = uprightShare(middle, orientation);
    out[Math.floor(y * down) * across + Math.floor(x * across)] = lost;
  });
  return { columns: across, rows: down, bits: out };
}

function mapOf(cells: Cells): LostMap {
  const runs = runsOf(cells.bits);
  if (runs.length > 2 * runsMax && cells.columns > 1 && cells.rows > 1) return mapOf(coarser(cells));
  return { columns: cells.columns, rows: cells.rows, runs };
}

function runsOf(bits: Uint8Array): number[] {
  const runs: number[] = [];
  for (let at = 0; at < bits.length; ) {
    const lost = bits[at] ?? 0;
    let end = at + 1;
    while (end < bits.length && bits[end] === lost) end++;
    runs.push(end - at, lost);
    at = end;
  }
  return runs;
}

function coarser({ columns, rows, bits }: Cells): Cells {
  const [across, down] = [(columns + 1) >> 1, (rows + 1) >> 1];
  const out = new Uint8Array(across * down);
  bits.forEach((lost, at) => {
    const to = (Math.floor(at / columns) >> 1) * across + ((at % columns) >> 1);
    out[to] = (out[to] ?? 0) | lost;
  });
  return { columns: across, rows: down, bits: out };
}
