import type { LightDifference, LightMap, Orientation } from '../../facts/index.ts';
import { turnUpright } from '../../image/index.ts';
import type { HalfPlane } from '../half-plane.ts';
import { blockMeans } from '../kernels/block-means.ts';
import { stopsOf } from './stops.ts';

/** Parts along the longer and the shorter edge. */
const along = 24;
const across = 16;
/** A part whose mean is nearer to saturation than this has lost some of its light. */
const lostFrom = 0.97;
/** Fewer parts in common say nothing of the light. */
const partsMin = 24;

/** Light by parts of the upright picture. `sceneStep`: scene value of one step of the plane; `saturation`, `noise`: in its steps. */
export function lightMap(
  { data, widthPx, heightPx }: HalfPlane,
  sceneStep: number,
  saturation: number,
  noise: number,
  orientation: Orientation,
): LightMap {
  const [columns, rows] = widthPx >= heightPx ? [along, across] : [across, along];
  const means = new Float64Array(columns * rows);
  blockMeans(data, widthPx, heightPx, columns, rows, means);
  const parts = { data: Float32Array.from(means), widthPx: columns, heightPx: rows, channels: 1 } as const;
  const upright = turnUpright(parts, orientation);
  const stops = Array.from(upright.data, (mean) => {
    const lost = mean >= lostFrom * saturation || mean <= noise || mean <= 0;
    return lost ? null : Math.round(stopsOf(mean * sceneStep) * 100) / 100;
  });
  return { columns: upright.widthPx, rows: upright.heightPx, stops };
}

/** How the light of one picture differs from another's, part by part; null where too few parts can be compared. */
export function lightDifference(light: LightMap, against: LightMap): LightDifference | null {
  if (light.columns !== against.columns || light.rows !== against.rows) return null;
  const differences = light.stops.flatMap((stops, part) => {
    const other = against.stops[part] ?? null;
    return stops === null || other === null ? [] : [stops - other];
  });
  if (differences.length < partsMin) return null;
  const ev = middle(differences);
  return { ev, spreadEv: middle(differences.map((each) => Math.abs(each - ev))) };
}

/** Median; 0 for none. */
export function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const high = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? high : ((sorted[half - 1] ?? high) + high) / 2;
}
