import type { Size } from '../../image/index.ts';
import { areaNumbers, connectedAreas } from '../kernels/clipped-areas.ts';

/** Where light is lost, share of the picture's pixels, %. */
export interface LostLight {
  readonly areasPercent: number;
  /** Reflections of lamps: small islands that a picture needs. */
  readonly islandsPercent: number;
  /** Of the areas, those that reach the border. */
  readonly atBorderPercent: number;
}

/** An island is no larger than a square of this edge, share of the picture's longer edge (common practice, no source). */
const islandEdge = 0.008;
/** More areas than this are a pattern; the last one takes the rest. */
const areasMax = 200_000;

/** Tells small specular islands from areas. `mask`: 1 where light is lost. */
export function lostLight(mask: Uint8Array, { widthPx, heightPx }: Size): LostLight {
  const out = new Float64Array(areasMax * areaNumbers);
  const count = connectedAreas(mask, widthPx, heightPx, out);
  const island = (islandEdge * Math.max(widthPx, heightPx)) ** 2;
  let [areas, islands, atBorder] = [0, 0, 0];
  for (let area = 0; area < count; area++) {
    const pixels = out[area * areaNumbers] ?? 0;
    if (pixels <= island) {
      islands += pixels;
      continue;
    }
    areas += pixels;
    if (out[area * areaNumbers + 1] === 1) atBorder += pixels;
  }
  const percent = (pixels: number): number => (100 * pixels) / Math.max(1, widthPx * heightPx);
  return {
    areasPercent: percent(areas),
    islandsPercent: percent(islands),
    atBorderPercent: percent(atBorder),
  };
}
