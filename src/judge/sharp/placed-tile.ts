import type { PlaceShift, ShareBox, SharpMap } from '../../facts/index.ts';

/** A tile of the frame counts where it covers this share of one of the reference's, as that lies in the frame. */
const coverMin = 0.15;

/** Tiles of the frame that show what a tile of the reference does: its own box where nothing has moved. */
export interface PlacedTile {
  /** Edge widths of them, px; null where none is read there. */
  readonly widthsPx: readonly (number | null)[];
  /** By how much of a tile the farther of its ends has moved. */
  readonly movedTiles: number;
}

/**
 * Where a tile of the reference lies in a frame whose place against it is known. Null where it lies beyond the frame, at
 * least in part. Both maps are of the same division.
 */
export function placedTile(own: SharpMap, box: ShareBox, shift: PlaceShift | null): PlacedTile | null {
  const placed = shift === null ? box : movedBox(own, box, shift);
  // What reaches beyond the frame by next to nothing is still in it.
  const slack = 0.1 * (box.right - box.left);
  if (placed.left < -slack || placed.top < -slack || placed.right > 1 + slack || placed.bottom > 1 + slack)
    return null;
  const [columns, rows] = [
    spans(own.columnEnds, placed.left, placed.right),
    spans(own.rowEnds, placed.top, placed.bottom),
  ];
  const most = Math.max(...columns.map(({ share }) => share)) * Math.max(...rows.map(({ share }) => share));
  const widthsPx = rows.flatMap((row) =>
    columns.flatMap((column) =>
      row.share * column.share >= Math.min(coverMin, most)
        ? [own.widthsPx[row.at * own.columns + column.at] ?? null]
        : [],
    ),
  );
  const across = Math.max(Math.abs(placed.left - box.left), Math.abs(placed.right - box.right));
  const down = Math.max(Math.abs(placed.top - box.top), Math.abs(placed.bottom - box.bottom));
  return {
    widthsPx,
    movedTiles: Math.max(across / (box.right - box.left), down / (box.bottom - box.top)),
  };
}

/** Bounds of a box of the reference once it is shifted, turned and made larger about the point the shift is told of. */
function movedBox(own: SharpMap, box: ShareBox, shift: PlaceShift): ShareBox {
  const { rightPx, downPx, clockwiseDegrees, largerPercent, at, fullWidthPx = 0 } = shift;
  if (fullWidthPx <= 0) return box;
  const size = 1 + largerPercent / 100;
  const angle = (clockwiseDegrees * Math.PI) / 180;
  const [re, im] = [size * Math.cos(angle), size * Math.sin(angle)];
  // Tiles are square: how wide and how high the first one is tells the shape of the picture.
  const fullHeightPx = (fullWidthPx * (own.columnEnds[0] ?? 1)) / (own.rowEnds[0] ?? 1);
  const middle = {
    x: ((box.left + box.right) / 2 - at.x) * fullWidthPx,
    y: ((box.top + box.bottom) / 2 - at.y) * fullHeightPx,
  };
  const dx = (re * middle.x - im * middle.y - middle.x + rightPx) / fullWidthPx;
  const dy = (im * middle.x + re * middle.y - middle.y + downPx) / fullHeightPx;
  return { left: box.left + dx, top: box.top + dy, right: box.right + dx, bottom: box.bottom + dy };
}

/** Which of the spans that end at `ends` lie in from … to, each with the share of it that they take. */
function spans(
  ends: readonly number[],
  from: number,
  to: number,
): { readonly at: number; readonly share: number }[] {
  return ends.flatMap((end, at) => {
    const covered = Math.min(end, to) - Math.max(ends[at - 1] ?? 0, from);
    return covered > 1e-9 ? [{ at, share: covered / (to - from) }] : [];
  });
}
