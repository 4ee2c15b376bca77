import type { LightMap, PlaceShift, ShareBox, SharpMap, SoftPart } from '../../facts/index.ts';
import { lightDifference, middle } from '../exposed/light-map.ts';
import { placedTile } from './placed-tile.ts';

/** Tiles of a part, across and down: one tile alone may show another edge than it did. */
const groupTiles = 3;
/** So many of them have to be known in both pictures, and this share of those softer. */
const knownMin = 4;
const softShare = 2 / 3;
/** A tile of few edges is read anew within this: wider means softer for certain. */
const softerBy = 1.6;
/** A tile of the reference counts as sharp up to so many times its sharpest quarter. */
const sharpUpTo = 2;

/**
 * What moved by more than this share of a tile is only found softer, not without an edge: turned, an edge may be told no
 * more, and what a tile shows beside it is something else.
 */
const movedTilesMax = 0.35;

/** Light of both, and how unlike it is, EV: part by part, and for a tile more or less than for all, or darker. */
const sameLight = { spreadEv: 0.15, offEv: 0.35, darkerEv: 1 };

/** Light of the frame and of its reference, by parts of the upright pictures. */
export interface BothLights {
  readonly own: LightMap;
  readonly reference: LightMap;
}

/**
 * The part of a frame that is softest against its reference, tile by tile; null where none is softer, or the maps do not
 * match. Widths of both in pixels of the full-size frame. It is for where focus lies elsewhere than it did: each picture's own sharpest
 * place is as sharp as ever then. Where the reference has an edge and the frame shows none that can be read any more, it is
 * so soft that it is none - if the light there is still what it was: what is gone, covered or dark has another reason.
 * `lights`: null where that cannot be told; then such tiles do not count. `shift`: where the frame lies against the
 * reference, which tells which tiles show the same; null where that is not known.
 */
export function softPartOf(
  own: SharpMap,
  reference: SharpMap,
  lights: BothLights | null,
  shift: PlaceShift | null,
): SoftPart | null {
  if (own.columns !== reference.columns || own.rows !== reference.rows) return null;
  const known = reference.widthsPx.filter((width) => width !== null).sort((a, b) => a - b);
  const sharpMax = sharpUpTo * (known[known.length >> 2] ?? 0);
  const isLit = lights === null ? () => false : litAlike(lights);
  let worst: Found | null = null;
  for (let row = 0; row < Math.max(1, own.rows - groupTiles + 1); row++) {
    for (let column = 0; column < Math.max(1, own.columns - groupTiles + 1); column++) {
      const part = partAt(own, reference, { row, column, sharpMax, isLit, shift });
      if (part !== null && (worst === null || isWorse(part, worst))) worst = part;
    }
  }
  return worst?.part ?? null;
}

interface At {
  readonly row: number;
  readonly column: number;
  /** Wider tiles of the reference are soft themselves. */
  readonly sharpMax: number;
  readonly isLit: (box: ShareBox) => boolean;
  readonly shift: PlaceShift | null;
}

interface Found {
  readonly part: SoftPart;
  /** Tiles of it that are softer. */
  readonly softer: number;
}

/** What cannot be read is softer than what can; of two alike the one that more tiles speak for. */
function isWorse({ part, softer }: Found, than: Found): boolean {
  const [own, other] = [part.widthPx ?? Number.MAX_VALUE, than.part.widthPx ?? Number.MAX_VALUE];
  return own > other || (own === other && softer > than.softer);
}

/** Whether the light of a part of the picture is what it was. */
function litAlike({ own, reference }: BothLights): (box: ShareBox) => boolean {
  const difference = lightDifference(own, reference);
  if (difference === null || difference.spreadEv > sameLight.spreadEv) return () => false;
  return ({ left, top, right, bottom }) => {
    const off = own.stops.flatMap((stops, part) => {
      const there = reference.stops[part] ?? null;
      const x = ((part % own.columns) + 0.5) / own.columns;
      const y = (Math.floor(part / own.columns) + 0.5) / own.rows;
      const isIn = x >= left && x < right && y >= top && y < bottom;
      return !isIn || stops === null || there === null ? [] : [stops - there];
    });
    const ev = middle(off);
    return off.length > 0 && Math.abs(ev - difference.ev) <= sameLight.offEv && ev > -sameLight.darkerEv;
  };
}

function partAt(
  own: SharpMap,
  reference: SharpMap,
  { row, column, sharpMax, isLit, shift }: At,
): Found | null {
  const [bottom, right] = [Math.min(own.rows, row + groupTiles), Math.min(own.columns, column + groupTiles)];
  const pairs: { readonly here: number | null; readonly there: number }[] = [];
  for (let y = row; y < bottom; y++) {
    for (let x = column; x < right; x++) {
      const there = reference.widthsPx[y * own.columns + x] ?? null;
      if (there === null || there > sharpMax) continue;
      const box = boxOf(own, x, y);
      const placed = placedTile(own, box, shift);
      if (placed === null) continue;
      const here = sharpestOf(placed.widthsPx);
      if (here !== null || (placed.movedTiles <= movedTilesMax && isLit(box))) pairs.push({ here, there });
    }
  }
  const softer = pairs.filter(({ here, there }) => here === null || here > softerBy * there);
  const widths = softer.flatMap(({ here }) => (here === null ? [] : [here]));
  if (pairs.length < knownMin || softer.length < softShare * pairs.length) return null;
  const part: SoftPart = {
    left: own.columnEnds[column - 1] ?? 0,
    top: own.rowEnds[row - 1] ?? 0,
    right: own.columnEnds[right - 1] ?? 1,
    bottom: own.rowEnds[bottom - 1] ?? 1,
    // What most of it says.
    widthPx: 2 * widths.length < softer.length ? null : middle(widths),
    referencePx: middle(softer.map(({ there }) => there)),
  };
  return { part, softer: softer.length };
}

/** What lies across several tiles is as sharp as the sharpest of them. */
function sharpestOf(widthsPx: readonly (number | null)[]): number | null {
  const read = widthsPx.filter((width) => width !== null);
  return read.length === 0 ? null : Math.min(...read);
}

function boxOf({ columnEnds, rowEnds }: SharpMap, column: number, row: number): ShareBox {
  return {
    left: columnEnds[column - 1] ?? 0,
    top: rowEnds[row - 1] ?? 0,
    right: columnEnds[column] ?? 1,
    bottom: rowEnds[row] ?? 1,
  };
}
