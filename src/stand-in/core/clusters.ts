import type { Slab } from './kernels/slab.ts';
import { fromOwnFrame, type Solid } from './kernels/solid.ts';
import type { Cluster } from './kernels/stage.ts';

/** Solids in groups that stand close together, each group with the box that rays are held against first. */
export function clustered(groups: readonly (readonly Solid[])[]): {
  readonly solids: readonly Solid[];
  readonly clusters: readonly Cluster[];
} {
  const solids: Solid[] = [];
  const clusters = groups.map((group) => {
    const from = solids.length;
    solids.push(...group);
    return { from, to: solids.length, box: boxAround(group) };
  });
  return { solids, clusters };
}

function boxAround(group: readonly Solid[]): Float64Array {
  const corners = group.flatMap(cornersOf);
  const column = (axis: 0 | 1 | 2): number[] => corners.map((corner) => corner[axis]);
  return Float64Array.of(
    Math.min(...column(0)),
    Math.min(...column(1)),
    Math.min(...column(2)),
    Math.max(...column(0)),
    Math.max(...column(1)),
    Math.max(...column(2)),
  );
}

/** Loose, as long as a solid may be turned any way: a cube about it. */
function cornersOf({ x, y, z, box }: Solid): (readonly [number, number, number])[] {
  const reach = Math.hypot(
    ...[0, 1, 2].map((k) => Math.max(Math.abs(box[k] ?? 0), Math.abs(box[k + 3] ?? 0))),
  );
  return [
    [x - reach, y - reach, z - reach],
    [x + reach, y + reach, z + reach],
  ];
}

/** A sphere about every thing, solids first: x, y, z, radius. */
export function spheresAbout(solids: readonly Solid[], slabs: readonly Slab[]): Float64Array {
  return Float64Array.from([...solids.flatMap(sphereOfSolid), ...slabs.flatMap(sphereOfSlab)]);
}

function sphereOfSolid(solid: Solid): number[] {
  const { box } = solid;
  const low = (k: number): number => box[k] ?? 0;
  const middle = Float64Array.of((low(0) + low(3)) / 2, (low(1) + low(4)) / 2, (low(2) + low(5)) / 2);
  fromOwnFrame(solid, middle);
  const [x = 0, y = 0, z = 0] = middle;
  const radius = Math.hypot(low(3) - low(0), low(4) - low(1), low(5) - low(2)) / 2;
  return [solid.x + x, solid.y + y, solid.z + z, radius];
}

function sphereOfSlab({ x, y, z, halfX, halfZ, height, lift }: Slab): number[] {
  const half = (height + lift) / 2;
  return [x, y + half, z, Math.hypot(halfX, half, halfZ)];
}
