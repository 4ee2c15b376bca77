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
  const [reds, greens, blues] = [
    new Float64Array(count * count),
    new Float64Array(count * count),
    new Float64Array(count * count),
  ];
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
      reds[taken] = sample.light[0];
      greens[taken] = sample.light[1];
      blues[taken] = sample.light[2];
      taken++;
      if (sample.saturated) saturated++;
    }
  }
  const [red, green, blue] = [trimmed(reds), trimmed(greens), trimmed(blues)];
  return {
    light: [red.mean, green.mean, blue.mean],
    saturatedPercent: (100 * saturated) / (count * count),
    unevenPercent: green.mean > 0 ? (100 * green.deviation) / green.mean : 0,
  };
}

/** Mean and standard deviation without the ends. */
function trimmed(values: Float64Array): { readonly mean: number; readonly deviation: number } {
  values.sort();
  const cut = Math.floor(values.length * trimmedShare);
  const kept = values.subarray(cut, values.length - cut);
  let sum = 0;
  for (const value of kept) sum += value;
  const mean = sum / kept.length;
  let squares = 0;
  for (const value of kept) squares += (value - mean) * (value - mean);
  return { mean, deviation: Math.sqrt(squares / kept.length) };
}
