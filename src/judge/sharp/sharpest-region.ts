import type { EdgeWidth } from '../../facts/index.ts';
import type { BlurReading } from './blur-kind.ts';
import { combineEdges } from './combine-edges.ts';
import { acrossMovement, shownBy as acrossOfRegion, aslantMin, movedAs, widenedBy } from './movement-at.ts';
import type { EdgeReading } from './read-edge.ts';
import { type Box, isInside, type Tiles } from './tiles.ts';

/** A region is told by as many edges as the first of these, where there are; fewer leave more to chance. */
const edgesOfRegion = [6, 3] as const;
/** Light of an edge that counts for the sharpest region: not in deep shadow, share of saturation (5.6 stops below). */
const litMin = 0.02;

/** A part of the picture and the width of its edges, px of the grid. */
export interface Region {
  readonly box: Box;
  readonly width: EdgeWidth;
}

/**
 * Of all groups of 3 x 3 tiles the one with the sharpest well-lit edges; all of the picture where none has enough. Edges
 * along a movement stay sharp however far it went and would win everywhere: where the picture looks moved, those across it
 * speak, or else those that are as wide as it leaves them, as long as any region has enough of them.
 */
export function sharpestRegion(
  edges: readonly EdgeReading[],
  tiles: Tiles,
  { blur, stillSquare }: BlurReading,
): Region | null {
  const lit = edges.filter(({ light }) => light >= litMin);
  if (blur.kind === 'movement') {
    const region =
      sharpestOf(acrossMovement(lit, blur), tiles, acrossOfRegion) ??
      sharpestOf(widenedBy(lit, movedAs(blur, stillSquare)).fitting, tiles, aslantMin);
    if (region !== null)
      return {
        ...region,
        width: combineEdges(lit.filter((edge) => isInside(edge, region.box))) ?? region.width,
      };
  }
  for (const edgesMin of edgesOfRegion) {
    const region = sharpestOf(lit, tiles, edgesMin);
    if (region !== null) return region;
  }
  const width = combineEdges(lit);
  return width === null
    ? null
    : { box: { left: 0, top: 0, right: tiles.widthPx, bottom: tiles.heightPx }, width };
}

function sharpestOf(lit: readonly EdgeReading[], tiles: Tiles, edgesMin: number): Region | null {
  let best: Region | null = null;
  for (let row = 0; row < Math.max(1, tiles.rows - 2); row++) {
    for (let column = 0; column < Math.max(1, tiles.columns - 2); column++) {
      const box: Box = {
        left: column * tiles.tilePx,
        top: row * tiles.tilePx,
        right: Math.min(tiles.widthPx, (column + 3) * tiles.tilePx),
        bottom: Math.min(tiles.heightPx, (row + 3) * tiles.tilePx),
      };
      const inside = lit.filter((edge) => isInside(edge, box));
      const width = inside.length < edgesMin ? null : combineEdges(inside);
      if (width !== null && (best === null || rankOf(width) < rankOf(best.width))) best = { box, width };
    }
  }
  return best;
}

/** What is less sure has to be sharper to lead. */
export function rankOf({ widthPx, errorPx }: EdgeWidth): number {
  return widthPx + errorPx;
}
