import type { Grid } from '../kernels/grid.ts';
import { uniform } from '../kernels/hash.ts';
import type { Slab } from '../kernels/slab.ts';
import type { Solid } from '../kernels/solid.ts';
import type { Stuff } from '../kernels/stage.ts';
import type { LimbShape } from '../ware/shape.ts';
import { crumbs } from './drawings.ts';
import type { Dressing, Fold, SlabPlace } from './dressing.ts';
import { layDown } from './flat-shape.ts';
import { crumb } from './stuffs.ts';

/** A dressing as things that rays can meet. */
export interface LaidOut {
  readonly slabs: readonly Slab[];
  /** One by one, each a cluster of its own. */
  readonly things: readonly Solid[];
  /** Close together. */
  readonly crumbs: readonly Solid[];
  readonly stuffs: readonly Stuff[];
}

export function layOut(dressing: Dressing, seed: number): LaidOut {
  const stuffs: Stuff[] = [];
  const numberOf = (stuff: Stuff): number => {
    if (!stuffs.includes(stuff)) stuffs.push(stuff);
    return stuffs.indexOf(stuff);
  };
  const slabs = dressing.slabs.map((place) => makeSlab(place, numberOf(place.stuff)));
  const drawn = new Map<readonly LimbShape[], ReturnType<typeof layDown>>();
  const things = dressing.things.map(({ drawing, place, stuff }) => {
    const lay = drawn.get(drawing) ?? layDown(drawing);
    drawn.set(drawing, lay);
    return lay(place, numberOf(stuff));
  });
  return { slabs, things, crumbs: strew(dressing.crumbs, seed, numberOf), stuffs };
}

function makeSlab(place: SlabPlace, stuff: number): Slab {
  const { turn, folds, ...rest } = place;
  const lifted = folds.length === 0 ? null : liftedGrid(place);
  return {
    ...rest,
    y: 0,
    cos: Math.cos((turn * Math.PI) / 180),
    sin: Math.sin((turn * Math.PI) / 180),
    lifted,
    stirred: lifted === null ? null : stirredGrid(lifted),
    lift: lifted === null ? 0 : lifted.values.reduce((most, value) => Math.max(most, value), 0),
    stuff,
  };
}

function liftedGrid({ halfX, halfZ, folds }: SlabPlace): Grid {
  const columns = Math.ceil(2 * halfX) + 2;
  const rows = Math.ceil(2 * halfZ) + 2;
  const values = Float32Array.from({ length: columns * rows }, (_, k) => {
    const x = (k % columns) - halfX;
    const z = Math.floor(k / columns) - halfZ;
    return folds.reduce((sum, fold) => sum + liftOf(fold, x, z), 0);
  });
  return { values, columns, rows, left: -halfX, bottom: -halfZ, perMm: 1 };
}

/** A ray that comes down by 0.2 passes over a fold within so many times its height. */
const reachPerHeight = 5;
const cellMm = 6;
/** Less is not seen. */
const levelMm = 0.02;

/** 1 about every fold, as far as its height hides the level top from such a ray, and a cell on all sides. */
function stirredGrid({ values, columns, rows, left, bottom }: Grid): Grid {
  const wide = Math.ceil(columns / cellMm) + 1;
  const high = Math.ceil(rows / cellMm) + 1;
  const stirred = new Float32Array(wide * high);
  values.forEach((lift, k) => {
    if (lift < levelMm) return;
    const reach = (lift * reachPerHeight) / cellMm + 1;
    const column = (k % columns) / cellMm;
    const row = Math.floor(k / columns) / cellMm;
    for (let y = Math.max(0, Math.floor(row - reach)); y <= Math.min(high - 1, Math.ceil(row + reach)); y++) {
      for (
        let x = Math.max(0, Math.floor(column - reach));
        x <= Math.min(wide - 1, Math.ceil(column + reach));
        x++
      ) {
        stirred[y * wide + x] = 1;
      }
    }
  });
  return { values: stirred, columns: wide, rows: high, left, bottom, perMm: 1 / cellMm };
}

/** A ridge that wanders a little and ends softly. */
function liftOf(fold: Fold, x: number, z: number): number {
  const wx = x - fold.x;
  const wz = z - fold.z;
  const along = (wx * fold.cos + wz * fold.sin) / fold.length;
  if (Math.abs(along) > 1) return 0;
  const bent = 5 * Math.sin(along * 2.3 + fold.x);
  const away = (wz * fold.cos - wx * fold.sin + bent) / fold.width;
  return fold.height * (1 - along * along) ** 2 * Math.exp(-away * away);
}

/** How far crumbs fly, mm. */
const strewnMm = 34;

function strew(heap: Dressing['crumbs'], seed: number, numberOf: (stuff: Stuff) => number): Solid[] {
  if (heap === null) return [];
  const laid = crumbs.map((drawing) => layDown(drawing));
  const stuff = numberOf(crumb);
  return Array.from({ length: heap.count }, (_, k) => {
    const away = strewnMm * Math.sqrt(uniform(seed, k * 4));
    const angle = 2 * Math.PI * uniform(seed, k * 4 + 1);
    const size = uniform(seed, k * 4 + 2);
    const kind = size < 0.25 ? 0 : size < 0.6 ? 1 : 2;
    const y = heap.y + ([1.2, 0.7, 0.34][kind] ?? 0);
    return laid[kind]?.(
      {
        x: heap.x + 1.6 * away * Math.cos(angle),
        z: heap.z + 0.8 * away * Math.sin(angle),
        turn: 360 * uniform(seed, k * 4 + 3),
        y,
      },
      stuff,
    );
  }).filter((solid) => solid !== undefined);
}
