import type { Vector3 } from '../../colour/index.ts';
import type { Mosaic } from '../../facts/index.ts';
import type { LocalParts } from '../../look/index.ts';
import { grainLine, layGrain } from '../kernels/grain-rows.ts';
import { grainTaps, grainWeight } from './grain-reference.ts';

/** Lays grain on rows of display-linear RGB that come from the top, each beginning at the same column. */
export type GrainLayer = (rgb: Float32Array, rowStart: number, rowEnd: number) => void;

/** Enough that a step of weight is no step of light. */
const weightSteps = 1024;

/**
 * Grain of a picture at full size (`perPixel` 1) or half (2). `left` and `widthPx`: the columns that come. The same place has
 * the same grain, whatever part is asked for and in whatever order rows come; a few lines are kept.
 */
export function grainLayer(
  { sizePx, density }: LocalParts['grain'],
  seed: number,
  perPixel: 1 | 2,
  left: number,
  widthPx: number,
  luminance: Vector3,
): GrainLayer {
  const full = grainTaps(sizePx);
  const before = (full.length - 1) / 2;
  const taps = Float64Array.from(perPixel === 1 ? full : meanOfPairs(full));
  const ring = new Float32Array(taps.length * widthPx);
  const held = new Int32Array(taps.length).fill(-0x8000_0000);
  const white = new Float32Array(widthPx * perPixel + taps.length);
  const field = new Float32Array(widthPx);
  const weights = Float32Array.from({ length: weightSteps + 1 }, (_, i) =>
    grainWeight((i / weightSteps) ** 2),
  );
  const channels = Float64Array.from(luminance);
  const lineOf = (y: number): number => {
    const slot = ((y % taps.length) + taps.length) % taps.length;
    if (held[slot] !== y) {
      held[slot] = y;
      grainLine(seed, y, left * perPixel, widthPx, perPixel, before, taps, white, ring, slot * widthPx);
    }
    return slot * widthPx;
  };
  return (rgb, rowStart, rowEnd) => {
    for (let row = rowStart; row < rowEnd; row++) {
      field.fill(0);
      taps.forEach((tap, k) => {
        const from = lineOf(row * perPixel + k - before);
        for (let x = 0; x < widthPx; x++) field[x] = (field[x] ?? 0) + tap * (ring[from + x] ?? 0);
      });
      layGrain(rgb, (row - rowStart) * widthPx * 3, field, 0, widthPx, density, weights, channels);
    }
  };
}

/** The filter that reads two neighbours at once. */
function meanOfPairs(taps: readonly number[]): number[] {
  return Array.from({ length: taps.length + 1 }, (_, k) => ((taps[k] ?? 0) + (taps[k - 1] ?? 0)) / 2);
}

/** Samples that a seed is told from. */
const seedSamples = 4096;

/**
 * What makes one picture's grain another's: a number told from an original's own samples (FNV-1a, from memory), so that the
 * same original always has the same grain, under whatever name it lies. Other parts of a look leave it where it is, so that
 * grain does not jump while a knob is turned.
 */
export function grainSeed({ data, widthPx, heightPx }: Samples): number {
  let hash = 0x811c9dc5;
  const add = (value: number): void => {
    hash = Math.imul(hash ^ value, 0x01000193);
  };
  add(widthPx);
  add(heightPx);
  const step = Math.max(1, Math.floor(data.length / seedSamples));
  for (let at = 0; at < data.length; at += step) add(data[at] ?? 0);
  return hash | 0;
}

interface Samples {
  readonly data: Uint16Array | Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

export function mosaicSeed({
  values,
  widthPx,
  heightPx,
}: Pick<Mosaic, 'values' | 'widthPx' | 'heightPx'>): number {
  return grainSeed({ data: values, widthPx, heightPx });
}
