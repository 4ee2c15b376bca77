import type { GainMap, LensCorrections, Mosaic } from '../../facts/index.ts';
import { lensSteps } from './lens-points.ts';

/**
 * The mosaic with its maker's gain maps applied (`LensCorrections.samples`), before colour is found from it; the mosaic
 * itself where there are none. Samples are spread over 16 bits first, so that nothing is lost by rounding, and end at the
 * white level as DNG 1.7.1 wants it: chapter 7 cuts a list's result at its range. Two bytes a sample more of memory.
 */
export function correctSamples(mosaic: Mosaic): Mosaic {
  const { lens } = mosaic;
  if (lens === undefined || lens.samples.length === 0) return mosaic;
  const factor = Math.max(1, Math.floor(65_535 / mosaic.whiteLevel));
  const white = mosaic.whiteLevel * factor;
  const [black0, black1, black2, black3] = mosaic.blackLevels;
  const blackLevels = [black0 * factor, black1 * factor, black2 * factor, black3 * factor] as const;
  const values = new Uint16Array(mosaic.values.length);
  const { widthPx, heightPx } = mosaic;
  const row = rowOfGains(lens, widthPx);
  for (let y = 0; y < heightPx; y++) {
    const gains = row(y);
    for (let x = 0; x < widthPx; x++) {
      const at = y * widthPx + x;
      const black = blackLevels[((y & 1) * 2 + (x & 1)) as 0 | 1 | 2 | 3];
      const light = ((mosaic.values[at] ?? 0) * factor - black) * (gains[x] ?? 1);
      values[at] = Math.min(white, Math.max(0, Math.round(light + black)));
    }
  }
  const { lens: _, ...bare } = mosaic;
  return { ...bare, values, blackLevels, whiteLevel: white, lens: { ...lens, samples: [] } };
}

/** The gains of one row of the mosaic, all maps together; overwritten by the next. */
function rowOfGains(lens: LensCorrections, widthPx: number): (y: number) => Float64Array {
  const xs = Float64Array.from({ length: widthPx }, (_, x) => lens.leftPx + x);
  const ys = new Float64Array(widthPx);
  const own = new Float64Array(widthPx);
  const all = new Float64Array(widthPx);
  // One plane: the mosaic is one.
  const maps = lens.samples.map((map) => ({
    map,
    step: lensSteps({ area: lens.area, steps: [{ ...map, plane: 0, planes: 1 }] }, 0),
  }));
  return (y) => {
    all.fill(1);
    const row = lens.topPx + y;
    ys.fill(row);
    for (const { map, step } of maps) {
      if (!isOfPitch(row, map.within[0], map.rowPitch)) continue;
      own.fill(1);
      step({ xs, ys, gains: own }, widthPx);
      multiplyColumns(all, own, map, lens.leftPx);
    }
    return all;
  };
}

function multiplyColumns(all: Float64Array, own: Float64Array, map: GainMap, leftPx: number): void {
  for (let x = 0; x < all.length; x++) {
    if (isOfPitch(leftPx + x, map.within[1], map.columnPitch)) all[x] = (all[x] ?? 1) * (own[x] ?? 1);
  }
}

function isOfPitch(place: number, start: number, pitch: number): boolean {
  return place >= start && (place - start) % pitch === 0;
}
