import type { Triple } from '../../facts/index.ts';
import type { ColourLight } from './colour-light.ts';
import { applyHomography, type Homography } from './homography.ts';

/** What was measured of one patch. */
export interface PatchLight {
  readonly light: Triple;
  readonly saturatedPercent: number;
  readonly unevenPercent: number;
}

/** Half of the part of a patch that is read, steps of the grid: the inner half, away from edges and their blur. */
const innerHalf = 0.21;

/** Samples along each side, at most: more than 1600 to a patch do not make a mean any truer. */
const samplesMax = 40;

/** Share of the samples left out at either end: dust, scratches, gloss. */
const trimmedShare = 0.1;

/** The 24 patches in order, each as the trimmed mean of its inner part. */
export function readPatches(light: ColourLight, toLight: Homography): readonly PatchLight[] {
  return Array.from({ length: 24 }, (_, index) =>
    readPatch(light, toLight, index % 6, Math.floor(index / 6)),
  );
}

function readPatch(light: ColourLight, toLight: Homography, column: number, row: number): PatchLight {
  const centre = applyHomography(toLight, { x: column, y: row });
  const edge = applyHomography(toLight, { x: column + 1, y: row });
  const sidePx = 2 * innerHalf * Math.hypot(edge.x - centre.x, edge.y - centre.y);
  const count = Math.max(3, Math.min(samplesMax, Math.ceil(sidePx)));
  const channels = [0, 1, 2].map(() => new Float64Array(count * count));
  let taken = 0;
  let saturated = 0;
  for (let j = 0; j < count; j++) {
    for (let i = 0; i < count; i++) {
      const place = {
        x: column + innerHalf * ((2 * (i + 0.5)) / count - 1),
        y: row + innerHalf * ((2 * (j + 0.5)) / count - 1),
      };
      const at = applyHomography(toLight, place);
      const x = Math.min(light.widthPx - 1, Math.max(0, Math.round(at.x)));
      const y = Math.min(light.heightPx - 1, Math.max(0, Math.round(at.y)));
      const sample = light.at(x, y);
      sample.light.forEach((value, channel) => {
        const values = channels[channel];
        if (values !== undefined) values[taken] = value;
      });
      taken++;
      if (sample.saturated) saturated++;
    }
  }
  const [red = nothing, green = nothing, blue = nothing] = channels.map(trimmed);
  return {
    light: [red.mean, green.mean, blue.mean],
    saturatedPercent: (100 * saturated) / (count * count),
    unevenPercent: green.mean > 0 ? (100 * green.deviation) / green.mean : 0,
  };
}

const nothing = { mean: 0, deviation: 0 };

/** Mean and standard deviation without the ends. */
function trimmed(values: Float64Array): { readonly mean: number; readonly deviation: number } {
  values.sort();
  const cut = Math.floor(values.length * trimmedShare);
  const kept = values.subarray(cut, values.length - cut);
  const mean = kept.reduce((sum, value) => sum + value, 0) / kept.length;
  const square = kept.reduce((sum, value) => sum + (value - mean) ** 2, 0) / kept.length;
  return { mean, deviation: Math.sqrt(square) };
}
