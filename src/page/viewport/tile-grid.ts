import type { SizeImagePx } from './fit-box.ts';
import type { SeenPart } from './zoom-view.ts';

/** A tile of the picture at full size, in its pixels. */
export interface Tile {
  readonly leftPx: number;
  readonly topPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * Edge of a tile, pixels. Smaller ones are asked for more often, larger ones come later and are thrown away half seen;
 * a multiple of a JPEG's blocks, so that neighbours join without a seam.
 */
export const tileEdgePx = 512;

/** The tiles that cover a part of the picture, nearest to its middle first. The last of a row or column is smaller. */
export function tilesFor(part: SeenPart, picture: SizeImagePx): Tile[] {
  if (part.rightPx <= part.leftPx || part.bottomPx <= part.topPx) return [];
  const tiles: Tile[] = [];
  for (let topPx = stepBelow(part.topPx); topPx < part.bottomPx; topPx += tileEdgePx) {
    for (let leftPx = stepBelow(part.leftPx); leftPx < part.rightPx; leftPx += tileEdgePx) {
      const widthPx = Math.min(tileEdgePx, picture.widthPx - leftPx);
      const heightPx = Math.min(tileEdgePx, picture.heightPx - topPx);
      tiles.push({ leftPx, topPx, widthPx, heightPx });
    }
  }
  const distance = distanceFrom((part.leftPx + part.rightPx) / 2, (part.topPx + part.bottomPx) / 2);
  return tiles.sort((one, other) => distance(one) - distance(other));
}

function stepBelow(place: number): number {
  return Math.floor(place / tileEdgePx) * tileEdgePx;
}

function distanceFrom(xPx: number, yPx: number): (tile: Tile) => number {
  return ({ leftPx, topPx, widthPx, heightPx }) =>
    Math.hypot(leftPx + widthPx / 2 - xPx, topPx + heightPx / 2 - yPx);
}
