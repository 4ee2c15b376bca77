import { applyMatrix, multiplyMatrices } from '../../../colour/index.ts';
import type { ExrPicture, RgbHalf, Size } from '../../../image/index.ts';
import { type Look, placeOf } from '../../../look/index.ts';
import { fromMiddle, type Placed } from '../painter/painter.ts';

/** Edge of a tile of the station, pixels at full size. */
export const tilePx = 512;

export interface TileName {
  readonly column: number;
  readonly row: number;
}

/** A view of the picture pixel for pixel. */
export interface CloseView {
  /** The canvas: as many pixels of the picture as it has of its own. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** The tiles of the original that are seen, row by row. */
  readonly tiles: readonly TileName[];
  /** The tiles together: where they lie in the original, pixels. */
  readonly part: { readonly leftPx: number; readonly topPx: number } & Size;
  readonly placed: Placed;
  /** What is seen, shares of the picture: the middle that was asked for, held inside. */
  readonly centre: { readonly x: number; readonly y: number };
}

/** What a canvas of at most `room` device pixels shows about a place of the picture, shares of it as geometry leaves it. */
export function closeView(
  geometry: Look['geometry'],
  full: Size,
  room: Size,
  wanted: { readonly x: number; readonly y: number },
): CloseView {
  const whole = placeOf(geometry, full.widthPx, full.heightPx);
  const widthPx = Math.max(1, Math.min(room.widthPx, whole.widthPx));
  const heightPx = Math.max(1, Math.min(room.heightPx, whole.heightPx));
  const left = startOf(wanted.x, whole.widthPx, widthPx);
  const top = startOf(wanted.y, whole.heightPx, heightPx);
  const toOriginal = multiplyMatrices(whole.toOriginal, [widthPx, 0, left, 0, heightPx, top, 0, 0, 1]);
  const { tiles, part } = tilesOf(
    [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ].map(([x = 0, y = 0]) => {
      const [atX, atY, depth] = applyMatrix(toOriginal, [x, y, 1]);
      return { x: atX / depth, y: atY / depth };
    }),
    full,
  );
  const toPart = [
    1 / part.widthPx,
    0,
    -part.leftPx / part.widthPx,
    0,
    1 / part.heightPx,
    -part.topPx / part.heightPx,
    0,
    0,
    1,
  ] as const;
  return {
    widthPx,
    heightPx,
    tiles,
    part,
    placed: {
      widthPx,
      heightPx,
      toScene: multiplyMatrices(toPart, toOriginal),
      middle: fromMiddle(full, part),
    },
    centre: { x: (left + widthPx / 2) / whole.widthPx, y: (top + heightPx / 2) / whole.heightPx },
  };
}

/** On whole pixels, inside. */
function startOf(share: number, whole: number, seen: number): number {
  return Math.round(Math.min(whole - seen, Math.max(0, share * whole - seen / 2)));
}

function tilesOf(
  corners: readonly { readonly x: number; readonly y: number }[],
  { widthPx, heightPx }: Size,
): Pick<CloseView, 'tiles' | 'part'> {
  const range = (values: readonly number[], edge: number): readonly [number, number] => {
    const last = Math.ceil(edge / tilePx) - 1;
    const held = (tile: number): number => Math.min(last, Math.max(0, tile));
    // A whole pixel at a border of tiles belongs to the one before.
    return [
      held(Math.floor(Math.min(...values) / tilePx)),
      held(Math.ceil(Math.max(...values) / tilePx) - 1),
    ];
  };
  const [left, right] = range(
    corners.map(({ x }) => x),
    widthPx,
  );
  const [top, bottom] = range(
    corners.map(({ y }) => y),
    heightPx,
  );
  const tiles: TileName[] = [];
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) tiles.push({ column, row });
  }
  return {
    tiles,
    part: {
      leftPx: left * tilePx,
      topPx: top * tilePx,
      widthPx: Math.min(widthPx, (right + 1) * tilePx) - left * tilePx,
      heightPx: Math.min(heightPx, (bottom + 1) * tilePx) - top * tilePx,
    },
  };
}

/** Tiles put together; each says itself where it lies. */
export function joined(
  { leftPx, topPx, widthPx, heightPx }: CloseView['part'],
  tiles: readonly ExrPicture[],
): RgbHalf {
  const halves = new Uint16Array(widthPx * heightPx * 3);
  for (const tile of tiles) {
    for (let line = 0; line < tile.heightPx; line++) {
      const from = line * tile.widthPx * 3;
      const to = ((tile.topPx - topPx + line) * widthPx + tile.leftPx - leftPx) * 3;
      halves.set(tile.halves.subarray(from, from + tile.widthPx * 3), to);
    }
  }
  return { widthPx, heightPx, halves };
}
