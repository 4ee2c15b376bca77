import type { Vector3 } from '../../colour/index.ts';
import type { Reduced } from './colour-light.ts';
import { type ColourPair, colourErrors, fitColours, meanOf } from './fit-colours.ts';
import { extent, type Grid, stepAt } from './grow-grid.ts';
import { applyHomography, fitHomography, type Homography, type Pair, type Point } from './homography.ts';
import { publishedPatches } from './published-patches.ts';

/** A grid taken for a target. */
export interface Placement {
  /** From patch columns 0 … 5 and rows 0 … 3 to pixels of the reduced raster. */
  readonly toPicture: Homography;
  /** Mean CIEDE2000 of the patches inside the frame under the matrix that fits them best. */
  readonly colourError: number;
  readonly mirrored: boolean;
  /** Patches that lie inside the frame. */
  readonly inside: number;
  /** Patches that were seen as such. */
  readonly seen: number;
  /** As of {@link Grid}. */
  readonly gridError: number;
}

/** Fewer patches in the frame than this are not taken for a target that is cut off. */
const insideMin = 9;

/** Fewer patches seen as such do not make a target. */
const seenMin = 8;

/**
 * How the green of patches has to go with their published luminance (correlation of logarithms) before anything is fitted:
 * every camera and light keeps it well above.
 */
const likenessMin = 0.4;

/** One way to lay 6 x 4 patches on a grid. */
interface Layout {
  readonly swapped: boolean;
  readonly flipColumns: boolean;
  readonly flipRows: boolean;
}

const layouts: readonly Layout[] = [false, true].flatMap((swapped) =>
  [false, true].flatMap((flipColumns) =>
    [false, true].map((flipRows) => ({ swapped, flipColumns, flipRows })),
  ),
);

/**
 * The way of laying the target on a grid whose colours agree best with the published ones, mirrored ones as well, and
 * such that reach beyond the frame. Null where no way has enough patches. Any light will do: a matrix of its own is
 * fitted to each way, and what is left over decides.
 */
export function placeTarget(grid: Grid, raster: Reduced, storedMirrored: boolean): Placement | null {
  const { left, right, top, bottom } = extent(grid.cells);
  const sampler = colourSampler(grid, raster);
  let best: { readonly layout: Layout; readonly origin: Point; readonly inside: number } | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const layout of layouts) {
    const columns = layout.swapped ? 4 : 6;
    const rows = layout.swapped ? 6 : 4;
    // Every window that may hold enough cells: beside a target there may be one more cell, and a part of it beyond the frame.
    for (let y = top - rows + 2; y < bottom; y++) {
      for (let x = left - columns + 2; x < right; x++) {
        const origin = { x, y };
        const seen = grid.cells.filter(
          ({ from }) => from.x >= x && from.x < x + columns && from.y >= y && from.y < y + rows,
        ).length;
        if (seen < seenMin) continue;
        const pairs = pairsOf(layout, origin, sampler);
        if (pairs.length < insideMin || likeness(pairs) < likenessMin) continue;
        const matrix = fitColours(pairs);
        if (matrix === null) continue;
        // A matrix takes three of the freedoms of each channel; a target cut off is only taken where it is much better.
        const freedom = Math.sqrt(pairs.length / (pairs.length - 3));
        const error = meanOf(colourErrors(matrix, pairs)) * freedom * (1 + 0.02 * (24 - pairs.length));
        if (error >= least) continue;
        least = error;
        best = { layout, origin, inside: pairs.length };
      }
    }
  }
  return best === null
    ? null
    : placementOf(grid, best.layout, best.origin, best.inside, least, storedMirrored);
}

/** Where a patch lies on the grid. */
function onGrid({ swapped, flipColumns, flipRows }: Layout, origin: Point, { x, y }: Point): Point {
  const column = flipColumns ? 5 - x : x;
  const row = flipRows ? 3 - y : y;
  return { x: origin.x + (swapped ? row : column), y: origin.y + (swapped ? column : row) };
}

const patchPlaces: readonly Point[] = Array.from({ length: 24 }, (_, index) => ({
  x: index % 6,
  y: Math.floor(index / 6),
}));

/** Colours that decide how a target lies; the two editions do not differ enough to matter here. */
const published = publishedPatches['from-november-2014'].xyz;

function pairsOf(
  layout: Layout,
  origin: Point,
  sampler: (place: Point) => Vector3 | null,
): readonly ColourPair[] {
  return patchPlaces.flatMap((place, index) => {
    const light = sampler(onGrid(layout, origin, place));
    const xyz = published[index];
    return light === null || xyz === undefined ? [] : [{ light, xyz }];
  });
}

/** Correlation of light and luminance, both as logarithms. */
function likeness(pairs: readonly ColourPair[]): number {
  const xs = pairs.map(({ light }) => Math.log2(Math.max(1e-6, light[1])));
  const ys = pairs.map(({ xyz }) => Math.log2(xyz[1]));
  const [mx, my] = [meanOf(xs), meanOf(ys)];
  let [xx, xy, yy] = [0, 0, 0];
  xs.forEach((x, index) => {
    const y = (ys[index] ?? my) - my;
    xx += (x - mx) ** 2;
    xy += (x - mx) * y;
    yy += y * y;
  });
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}

/** Mean colour about a place of the grid, null where the patch is not wholly in the frame; each place is read once. */
function colourSampler(
  { toPicture }: Grid,
  { data, widthPx, heightPx }: Reduced,
): (place: Point) => Vector3 | null {
  const known = new Map<string, Vector3 | null>();
  const read = (place: Point): Vector3 | null => {
    const at = applyHomography(toPicture, place);
    const step = stepAt(toPicture, place);
    const margin = 0.4 * step;
    const isInside =
      at.x >= margin && at.y >= margin && at.x <= widthPx - 1 - margin && at.y <= heightPx - 1 - margin;
    if (!isInside) return null;
    const reach = Math.floor(0.2 * step);
    const [cx, cy] = [Math.round(at.x), Math.round(at.y)];
    const sums = [0, 0, 0];
    for (let y = cy - reach; y <= cy + reach; y++) {
      for (let x = cx - reach; x <= cx + reach; x++) {
        for (let k = 0; k < 3; k++) sums[k] = (sums[k] ?? 0) + (data[(y * widthPx + x) * 3 + k] ?? 0);
      }
    }
    const count = (2 * reach + 1) ** 2;
    return [(sums[0] ?? 0) / count, (sums[1] ?? 0) / count, (sums[2] ?? 0) / count];
  };
  return (place) => {
    const key = `${place.x},${place.y}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const colour = read(place);
    known.set(key, colour);
    return colour;
  };
}

function placementOf(
  grid: Grid,
  layout: Layout,
  origin: Point,
  inside: number,
  colourError: number,
  storedMirrored: boolean,
): Placement | null {
  const pairs: readonly Pair[] = patchPlaces.flatMap((from) => {
    const place = onGrid(layout, origin, from);
    const cell = grid.cells.find((each) => each.from.x === place.x && each.from.y === place.y);
    return cell === undefined ? [] : [{ from, to: cell.to }];
  });
  const corners = [patchPlaces[0], patchPlaces[5], patchPlaces[18], patchPlaces[23]].flatMap((from) =>
    from === undefined ? [] : [{ from, to: applyHomography(grid.toPicture, onGrid(layout, origin, from)) }],
  );
  // By the patches that were seen where they are many, else by the grid as it was found.
  const toPicture =
    (pairs.length >= 12 ? fitHomography(pairs, false) : null) ?? fitHomography(corners, false);
  if (toPicture === null) return null;
  const at = applyHomography(toPicture, { x: 2.5, y: 1.5 });
  const across = applyHomography(toPicture, { x: 2.6, y: 1.5 });
  const down = applyHomography(toPicture, { x: 2.5, y: 1.6 });
  const turn = (across.x - at.x) * (down.y - at.y) - (across.y - at.y) * (down.x - at.x);
  return {
    toPicture,
    colourError,
    mirrored: turn < 0 !== storedMirrored,
    inside,
    seen: pairs.length,
    gridError: grid.error,
  };
}
