import type { HalfPlane } from '../half-plane.ts';
import { nthSmallest } from '../kernels/nth-smallest.ts';
import { reducePlane } from '../kernels/reduce-plane.ts';
import { slopeBlockPx, slopeBlocks, slopeSums } from '../kernels/slope-blocks.ts';

/** A place where a straight edge may be, in pixels of the full-size grid. */
export interface EdgePlace {
  readonly x: number;
  readonly y: number;
  /** Direction across the edge, radians from the grid's x towards its y, 0 … π. */
  readonly angle: number;
  /** Energy of the slope across it; only the order among places means something. */
  readonly strength: number;
  /** How much finer than the place was found the grid is: 2 or 8. */
  readonly scale: number;
}

/** Of a block's slope, the share that must lie across one direction: (λ1 - λ2) / (λ1 + λ2). */
const coherenceMin = 0.55;
/** A block whose slope is this little above what noise makes has no edge. */
const aboveNoise = 2.5;

/** Blocks that may hold one straight edge, from light at half size: it only finds, what is read is read at full size. */
export function findEdges(plane: HalfPlane): EdgePlace[] {
  // Edges wider than a block is long are found at an eighth of the size.
  return [...placesIn(plane, 2), ...placesIn(reducedBy4(plane), 8)];
}

function reducedBy4({ data, widthPx, heightPx }: HalfPlane): HalfPlane {
  const small = { widthPx: widthPx >> 2, heightPx: heightPx >> 2 };
  const out = new Float32Array(small.widthPx * small.heightPx);
  reducePlane(data, widthPx, heightPx, 4, out);
  return { data: out, ...small };
}

function placesIn({ data, widthPx, heightPx }: HalfPlane, scale: number): EdgePlace[] {
  const across = Math.floor(widthPx / slopeBlockPx);
  const down = Math.floor(heightPx / slopeBlockPx);
  if (across === 0 || down === 0) return [];
  const sums = new Float64Array(across * down * slopeSums);
  slopeBlocks(data, widthPx, heightPx, sums);
  const floor = aboveNoise * quietEnergy(sums);
  const places: EdgePlace[] = [];
  for (let block = 0; block < across * down; block++) {
    const at = block * slopeSums;
    const xx = sums[at] ?? 0;
    const yy = sums[at + 1] ?? 0;
    const xy = sums[at + 2] ?? 0;
    const energy = xx + yy;
    const directed = Math.hypot(xx - yy, 2 * xy);
    if (directed <= floor || directed < coherenceMin * energy) continue;
    // Pixel c of the plane covers the grid's pixels from scale c on: its middle lies half a block's width further.
    const middle = (scale - 1) / 2;
    places.push({
      x: ((sums[at + 3] ?? 0) / energy) * scale + middle,
      y: ((sums[at + 4] ?? 0) / energy) * scale + middle,
      angle: (0.5 * Math.atan2(2 * xy, xx - yy) + Math.PI) % Math.PI,
      strength: directed,
      scale,
    });
  }
  return places;
}

/** What slope a block without content has: the noise's, from the quietest tenth of the blocks. */
function quietEnergy(sums: Float64Array): number {
  const energies = new Float64Array(sums.length / slopeSums);
  for (let block = 0; block < energies.length; block++) {
    energies[block] = (sums[block * slopeSums] ?? 0) + (sums[block * slopeSums + 1] ?? 0);
  }
  return nthSmallest(energies, energies.length, Math.floor(energies.length / 10));
}
