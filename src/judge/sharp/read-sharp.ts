import type {
  BlurKind,
  EdgeProfile,
  EdgeWidth,
  LightSourceName,
  ShareBox,
  SharpReading,
  SpotTeller,
} from '../../facts/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import type { LightGrid } from '../light-grid.ts';
import { type BlurReading, blurKind, readBlur, readWave } from './blur-kind.ts';
import { combineEdges } from './combine-edges.ts';
import { type EdgePlace, findEdges } from './find-edges.ts';
import { movementAt } from './movement-at.ts';
import { type EdgeReading, readEdge } from './read-edge.ts';
import { type Region, rankOf, sharpestRegion } from './sharpest-region.ts';
import { type Box, isInside, type Tiles, tileAt, tileBoxes, tileEnds, tilesOf } from './tiles.ts';

export interface SharpOptions {
  readonly source: LightSourceName;
  /** Where focus was to be, as the grid lies; null where nobody said. */
  readonly spot: (ShareBox & { readonly teller: Exclude<SpotTeller, 'sharpest'> }) | null;
  /** Pixels of the full-size frame for one of the grid's; 1 but for previews. */
  readonly scale?: number;
}

/** Edges read in a tile, and places tried for them. */
const edgesPerTile = 3;
const triesPerTile = 6;
const coarseTriesPerTile = 5;
/** At the spot more is worth trying. */
const triesAtSpot = 40;
const edgesAtSpot = 16;
/** The other region is clearly sharper from here on. */
const clearlySharper = 0.75;

/** Reads how sharp a picture is, and where. As the grid lies: positions are turned upright by `uprightSharp`. */
export function readSharp(
  grid: LightGrid,
  plane: HalfPlane,
  { source, spot, scale = 1 }: SharpOptions,
): SharpReading {
  const tiles = tilesOf(grid);
  const places = findEdges(plane);
  const byTile = placesByTile(places, tiles);
  // In each tile the most promising places, one direction after the other, until there are enough.
  const told = [...byTile.values()].flatMap((inTile) => readSome(grid, inTile, triesPerTile, edgesPerTile));
  const { edges: found, blur } = withLongMovement(grid, byTile, told);
  const given = spot === null ? null : boxOf(spot, grid);
  const edges = given === null ? found : [...found, ...readSpot(grid, places, given, found)];
  const map = tileBoxes(tiles).map((box) => {
    const width = combineEdges(edges.filter((edge) => isInside(edge, box)));
    return width === null ? null : width.widthPx * scale;
  });
  const all = given === null ? blur : readBlur(edges);
  const sharpest = sharpestRegion(edges, tiles, all);
  const region = given ?? sharpest?.box ?? null;
  const near = region === null ? [] : edges.filter((edge) => isInside(edge, region));
  const atSpot = combineEdges(near);
  return {
    source,
    samplePx: scale,
    spot: region === null ? null : { ...shareOf(region, grid), teller: spot?.teller ?? 'sharpest' },
    atSpot: atSpot === null ? null : scaled(atSpot, scale),
    elsewhere: elsewhereOf(atSpot, given === null ? null : sharpest, grid, scale),
    blur: kindAt(edges, region, all, scale),
    map: { columns: tiles.columns, rows: tiles.rows, ...tileEnds(tiles), widthsPx: map },
    profile: atSpot === null ? null : profileOf(near, atSpot, grid, scale),
  };
}

function placesByTile(places: readonly EdgePlace[], tiles: Tiles): Map<number, EdgePlace[]> {
  const byTile = new Map<number, EdgePlace[]>();
  for (const place of places) {
    const tile = tileAt(tiles, place);
    const list = byTile.get(tile);
    if (list === undefined) byTile.set(tile, [place]);
    else list.push(place);
  }
  return byTile;
}

/**
 * The edges, with those so wide that they are places at the coarser scale only, as a long movement leaves them, where they
 * show a movement that the others do not tell of; and the blur that they show.
 */
function withLongMovement(
  grid: LightGrid,
  byTile: ReadonlyMap<number, readonly EdgePlace[]>,
  told: readonly EdgeReading[],
): { readonly edges: readonly EdgeReading[]; readonly blur: BlurReading } {
  const blur = readWave(told);
  if (blur.blur.kind !== 'unknown') return { edges: told, blur };
  const more = [...byTile.values()].flatMap((inTile) => {
    const coarse = inTile.filter(({ scale }) => scale > 2);
    return readSome(grid, coarse, coarseTriesPerTile, edgesPerTile, true);
  });
  const isKnown = ({ x, y }: EdgeReading): boolean =>
    told.some((edge) => Math.hypot(edge.x - x, edge.y - y) < 2);
  const all = [...told, ...more.filter((edge) => !isKnown(edge))];
  const long = readBlur(all);
  return long.blur.kind === 'movement' ? { edges: all, blur: long } : { edges: told, blur };
}

function readSpot(
  grid: LightGrid,
  places: readonly EdgePlace[],
  box: Box,
  known: readonly EdgeReading[],
): EdgeReading[] {
  const inside = places.filter((place) => isInside(place, box));
  const found = readSome(grid, inside, triesAtSpot, edgesAtSpot);
  return found.filter((edge) => !known.some(({ x, y }) => Math.hypot(edge.x - x, edge.y - y) < 2));
}

function readSome(
  grid: LightGrid,
  places: readonly EdgePlace[],
  tries: number,
  wanted: number,
  long = false,
): EdgeReading[] {
  const found: EdgeReading[] = [];
  for (const place of inTurn(places).slice(0, tries)) {
    const edge = readEdge(grid, place, long);
    if (edge === null || found.some(({ x, y }) => Math.hypot(edge.x - x, edge.y - y) < 2)) continue;
    found.push(edge);
    if (found.length === wanted) break;
  }
  return found;
}

const directions = 4;

/** The strongest first, but of each direction in turn: movement is told by edges that lie differently. */
function inTurn(places: readonly EdgePlace[]): EdgePlace[] {
  const sorted = [...places].sort((a, b) => b.strength / b.scale ** 2 - a.strength / a.scale ** 2);
  const rank = new Map<EdgePlace, number>();
  const counts = new Int32Array(directions);
  for (const place of sorted) {
    const direction = Math.floor((place.angle / Math.PI) * directions) % directions;
    counts[direction] = (counts[direction] ?? 0) + 1;
    rank.set(place, counts[direction] ?? 0);
  }
  return sorted.sort((a, b) => (rank.get(a) ?? 0) - (rank.get(b) ?? 0));
}

function elsewhereOf(
  atSpot: EdgeWidth | null,
  sharpest: Region | null,
  grid: LightGrid,
  scale: number,
): SharpReading['elsewhere'] {
  if (sharpest === null) return null;
  const isSharper =
    atSpot === null || rankOf(sharpest.width) < clearlySharper * (atSpot.widthPx - atSpot.errorPx);
  return isSharper ? { ...scaled(sharpest.width, scale), ...shareOf(sharpest.box, grid) } : null;
}

/**
 * Of the edges at the spot. Where they lie too few ways all edges are asked, but what those show is only said of the spot
 * where its own edges bear it out: a rim or a cloth at another depth is soft without anything having moved.
 */
function kindAt(
  edges: readonly EdgeReading[],
  region: Box | null,
  all: BlurReading,
  scale: number,
): SharpReading['blur'] {
  const near = region === null ? [] : edges.filter((edge) => isInside(edge, region));
  const here = blurKind(near);
  const blur = here.kind === 'unknown' ? borneOut(near, all) : here;
  return { ...blur, lengthPx: blur.lengthPx === null ? null : blur.lengthPx * scale };
}

function borneOut(near: readonly EdgeReading[], { blur: everywhere, stillSquare }: BlurReading): BlurKind {
  if (everywhere.kind !== 'movement') return everywhere;
  const told = movementAt(near, everywhere, stillSquare);
  if (told === 'shown') return everywhere;
  return told === 'silent'
    ? { ...everywhere, kind: 'movement-elsewhere' }
    : { kind: 'unknown', directionDegrees: null, lengthPx: null };
}

/** Of the edge that is nearest to what all of them say. */
function profileOf(
  edges: readonly EdgeReading[],
  { widthPx }: EdgeWidth,
  grid: LightGrid,
  scale: number,
): EdgeProfile | null {
  const off = (edge: EdgeReading): number => Math.abs(edge.widthPx - widthPx);
  const nearest = edges.reduce<EdgeReading | null>(
    (best, edge) => (best === null || off(edge) < off(best) ? edge : best),
    null,
  );
  if (nearest === null) return null;
  const { x, y, angle, rise } = nearest;
  return {
    x: x / grid.widthPx,
    y: y / grid.heightPx,
    acrossDegrees: (angle * 180) / Math.PI,
    fromPx: (-(rise.heights.length - 1) / 2) * rise.stepPx * scale,
    stepPx: rise.stepPx * scale,
    heights: Array.from(rise.heights, (height) =>
      Number.isNaN(height) ? null : Math.round(height * 1000) / 1000,
    ),
    tenPx: rise.tenPx * scale,
    ninetyPx: rise.ninetyPx * scale,
  };
}

function scaled(width: EdgeWidth, scale: number): EdgeWidth {
  return {
    ...width,
    widthPx: width.widthPx * scale,
    errorPx: width.errorPx * scale,
    sigmaPx: width.sigmaPx * scale,
    mtf50: width.mtf50 === null ? null : width.mtf50 / scale,
  };
}

function boxOf({ left, top, right, bottom }: ShareBox, { widthPx, heightPx }: LightGrid): Box {
  return { left: left * widthPx, top: top * heightPx, right: right * widthPx, bottom: bottom * heightPx };
}

function shareOf({ left, top, right, bottom }: Box, { widthPx, heightPx }: LightGrid): ShareBox {
  return {
    left: left / widthPx,
    top: top / heightPx,
    right: right / widthPx,
    bottom: bottom / heightPx,
  };
}
