import type { Mosaic, Triple } from '../../facts/index.ts';
import type { Rgb8, Size } from '../../image/index.ts';
import { blockColourOfMosaic, blockColourOfPicture, halveColour } from '../kernels/block-colour.ts';
import { srgbDecodeTable } from '../srgb-light.ts';

/** Linear colour of a frame on a grid of its own: 2x2 bins of a mosaic, pixels of a picture. */
export interface ColourLight extends Size {
  /** Pixels of the full-size frame that one step of the grid is long. */
  readonly stepPx: number;
  /** Means over blocks of `factor` x `factor`. */
  reduced(factor: number): Reduced;
  /** Colour at a place of the grid, and whether a channel is at saturation there; inside the grid only. */
  at(x: number, y: number): { readonly light: Triple; readonly saturated: boolean };
}

/** Interleaved red, green, blue. */
export interface Reduced extends Size {
  readonly data: Float32Array;
  readonly factor: number;
}

/** From here on a sample counts as saturated: sensors bend a little before their white level. */
const saturatedShare = 0.985;

/** As-shot multipliers with the smallest as 1: what balanced light is multiplied by here. */
export function smallestOne(multipliers: Triple): Triple {
  const smallest = Math.min(...multipliers);
  const [red, green, blue] = multipliers;
  return [red / smallest, green / smallest, blue / smallest];
}

/** Balanced camera RGB of a mosaic, in the order it is stored; 1 is where the first channel saturates. */
export function colourOfMosaic(mosaic: Mosaic): ColourLight {
  const { values, filters, blackLevels, whiteLevel, asShotMultipliers } = mosaic;
  const multipliers = smallestOne(asShotMultipliers);
  const places = [0, 1, 2, 3] as const;
  const scales = places.map((place) => {
    const filter = filters[place];
    const multiplier = multipliers[filter === 0 ? 0 : filter === 1 ? 1 : 2];
    return ((filter === 1 ? 0.5 : 1) * multiplier) / (whiteLevel - blackLevels[place]);
  });
  const full = places.map((place) => blackLevels[place] + saturatedShare * (whiteLevel - blackLevels[place]));
  const numbers = Float64Array.of(...blackLevels, ...scales, ...filters);
  const widthPx = mosaic.widthPx >> 1;
  const heightPx = mosaic.heightPx >> 1;
  return {
    widthPx,
    heightPx,
    stepPx: 2,
    reduced: lastKept((factor) =>
      reduce({ widthPx, heightPx }, factor, (out) =>
        blockColourOfMosaic(values, mosaic.widthPx, mosaic.heightPx, factor, numbers, out),
      ),
    ),
    at: (x, y) => {
      const sums = [0, 0, 0];
      let saturated = false;
      for (const place of places) {
        const value = values[(2 * y + (place >> 1)) * mosaic.widthPx + 2 * x + (place & 1)] ?? 0;
        const filter = filters[place];
        sums[filter] = (sums[filter] ?? 0) + (value - blackLevels[place]) * (scales[place] ?? 0);
        saturated ||= value >= (full[place] ?? 0);
      }
      return { light: [sums[0] ?? 0, sums[1] ?? 0, sums[2] ?? 0], saturated };
    },
  };
}

/** Linear sRGB of a finished picture. `scale`: pixels of the full-size frame to one of the picture. */
export function colourOfPicture({ data, widthPx, heightPx }: Rgb8, scale: number): ColourLight {
  const decode = srgbDecodeTable();
  return {
    widthPx,
    heightPx,
    stepPx: scale,
    reduced: lastKept((factor) =>
      reduce({ widthPx, heightPx }, factor, (out) =>
        blockColourOfPicture(data, widthPx, heightPx, factor, decode, out),
      ),
    ),
    at: (x, y) => {
      const from = (y * widthPx + x) * 3;
      const [r = 0, g = 0, b = 0] = data.subarray(from, from + 3);
      return {
        light: [decode[r] ?? 0, decode[g] ?? 0, decode[b] ?? 0],
        saturated: Math.max(r, g, b) === 255,
      };
    },
  };
}

/** At half the edges, an odd row or column left out. */
export function halved({ data, widthPx, heightPx, factor }: Reduced): Reduced {
  const size = { widthPx: widthPx >> 1, heightPx: heightPx >> 1 };
  const out = new Float32Array(size.widthPx * size.heightPx * 3);
  halveColour(data, widthPx, heightPx, out);
  return { data: out, ...size, factor: 2 * factor };
}

/** The map of colours and the search for a target begin with the same raster. */
function lastKept(make: (factor: number) => Reduced): (factor: number) => Reduced {
  let kept: Reduced | null = null;
  return (factor) => {
    if (kept === null || kept.factor !== factor) kept = make(factor);
    return kept;
  };
}

function reduce({ widthPx, heightPx }: Size, factor: number, fill: (out: Float32Array) => void): Reduced {
  const size = { widthPx: Math.floor(widthPx / factor), heightPx: Math.floor(heightPx / factor) };
  const data = new Float32Array(size.widthPx * size.heightPx * 3);
  fill(data);
  return { data, ...size, factor };
}
