import type { LightMap, LightTrend } from '../../facts/index.ts';
import { lightDifference, middle } from './light-map.ts';

/** Frames that the running median goes over: a burst of bad ones does not carry it away. */
export const medianFrames = 7;
/** With fewer before it a frame has nothing to be held against. */
const framesMin = 2;

/**
 * How a frame's light stands to that of the frames before it, which were taken with equal settings of the same thing.
 * `earlier`: oldest first; the first of them is where a drift is measured from. Null where there are too few.
 */
export function lightTrend(light: LightMap, earlier: readonly LightMap[]): LightTrend | null {
  if (earlier.length < framesMin) return null;
  const fromMedian = lightDifference(light, medianMap(earlier.slice(-medianFrames)));
  const first = earlier[0];
  const fromFirst = first === undefined ? null : lightDifference(light, first);
  if (fromMedian === null || fromFirst === null) return null;
  return { fromMedian, fromFirst, frames: earlier.length };
}

/** Part by part the median of several maps. */
function medianMap(maps: readonly LightMap[]): LightMap {
  const shape = maps[0] ?? { columns: 0, rows: 0, stops: [] };
  const alike = maps.filter(({ columns, rows }) => columns === shape.columns && rows === shape.rows);
  const stops = shape.stops.map((_, part) => {
    const known = alike.map((map) => map.stops[part] ?? null).filter((each) => each !== null);
    return known.length * 2 < alike.length || known.length === 0 ? null : middle(known);
  });
  return { columns: shape.columns, rows: shape.rows, stops };
}
