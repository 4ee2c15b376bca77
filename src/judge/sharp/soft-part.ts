import type { SharpMap, SoftPart } from '../../facts/index.ts';
import { middle } from '../exposed/light-map.ts';

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
 * The part of a frame that is softest against its reference, tile by tile; null where none is softer, or the maps do not
 * match. Widths of both in pixels of the full-size frame. It is for where focus lies elsewhere than it did: each picture's own sharpest
 * place is as sharp as ever then.
 */
export function softPartOf(own: SharpMap, reference: SharpMap): SoftPart | null {
  if (own.columns !== reference.columns || own.rows !== reference.rows) return null;
  const known = reference.widthsPx.filter((width) => width !== null).sort((a, b) => a - b);
  const sharpMax = sharpUpTo * (known[known.length >> 2] ?? 0);
  let worst: SoftPart | null = null;
  for (let row = 0; row < Math.max(1, own.rows - groupTiles + 1); row++) {
    for (let column = 0; column < Math.max(1, own.columns - groupTiles + 1); column++) {
      const part = partAt(own, reference, { row, column, sharpMax });
      if (part !== null && (worst === null || part.widthPx > worst.widthPx)) worst = part;
    }
  }
  return worst;
}

interface At {
  readonly row: number;
  readonly column: number;
  /** Wider tiles of the reference are soft themselves. */
  readonly sharpMax: number;
}

function partAt(own: SharpMap, reference: SharpMap, { row, column, sharpMax }: At): SoftPart | null {
  const [bottom, right] = [Math.min(own.rows, row + groupTiles), Math.min(own.columns, column + groupTiles)];
  const pairs: { readonly here: number; readonly there: number }[] = [];
  for (let y = row; y < bottom; y++) {
    for (let x = column; x < right; x++) {
      const here = own.widthsPx[y * own.columns + x] ?? null;
      const there = reference.widthsPx[y * own.columns + x] ?? null;
      if (here !== null && there !== null && there <= sharpMax) pairs.push({ here, there });
    }
  }
  const softer = pairs.filter(({ here, there }) => here > softerBy * there);
  if (pairs.length < knownMin || softer.length < softShare * pairs.length) return null;
  return {
    left: own.columnEnds[column - 1] ?? 0,
    top: own.rowEnds[row - 1] ?? 0,
    right: own.columnEnds[right - 1] ?? 1,
    bottom: own.rowEnds[bottom - 1] ?? 1,
    widthPx: middle(softer.map(({ here }) => here)),
    referencePx: middle(softer.map(({ there }) => there)),
  };
}
