import type { Size } from '../../image/index.ts';
import { binomialBlur, boxBlur } from '../kernels/blur-plane.ts';
import { evenContrast, rootPlane, takeSlowOff } from '../kernels/even-plane.ts';
import { nthSmallest } from '../kernels/nth-smallest.ts';
import { reducePlane } from '../kernels/reduce-plane.ts';

/** One size of a picture: light in stops, as it is or made even. */
export interface Level extends Size {
  readonly data: Float32Array;
}

/** Below this along the longer edge there is nothing left to lay on each other. */
const edgePxMin = 40;

/** A plane is looked at for its subject, and laid on another: its halves are made once, and go when it goes. */
const pyramids = new WeakMap<Level, readonly Level[]>();

/** The level itself and its halves down to about 40 px, the finest first. Halves are related by `toFiner(2)`. */
export function pyramidOf(finest: Level): readonly Level[] {
  const known = pyramids.get(finest) ?? madePyramid(finest);
  pyramids.set(finest, known);
  return known;
}

function madePyramid(finest: Level): Level[] {
  const levels: Level[] = [finest];
  for (let last = finest; Math.max(last.widthPx, last.heightPx) >= 2 * edgePxMin; ) {
    const widthPx = last.widthPx >> 1;
    const heightPx = last.heightPx >> 1;
    if (Math.min(widthPx, heightPx) < edgePxMin / 4) break;
    const data = new Float32Array(widthPx * heightPx);
    reducePlane(last.data, last.widthPx, last.heightPx, 2, data);
    last = { data, widthPx, heightPx };
    levels.push(last);
  }
  return levels;
}

/** Radius of the squares that light is made even over, px of each level. */
const evenRadius = 5;

/** The level with its slow light taken off, and how strong its structure is, place by place, stops. */
export interface Structure extends Level {
  /** Root of the local mean square of `data`. */
  readonly strength: Float32Array;
  /** Of `data`, standard deviation, stops. */
  readonly noise: number;
}

export function structureOf({ data, widthPx, heightPx }: Level): Structure {
  const count = widthPx * heightPx;
  const scratch = new Float32Array(count);
  const even = new Float32Array(count);
  const strength = new Float32Array(count);
  const smooth = new Float32Array(count);
  // What is finer than two pixels cannot be laid on each other between pixels.
  binomialBlur(data, widthPx, heightPx, scratch, smooth);
  boxBlur(smooth, widthPx, heightPx, evenRadius, scratch, strength);
  boxBlur(strength, widthPx, heightPx, evenRadius, scratch, strength);
  takeSlowOff(smooth, strength, even, strength);
  boxBlur(strength, widthPx, heightPx, evenRadius, scratch, strength);
  rootPlane(strength);
  return { data: even, widthPx, heightPx, strength, noise: noiseOf({ data, widthPx, heightPx }) };
}

/** After 1 2 1 both ways independent noise has 0.375 of its deviation left. */
const afterBinomial = 0.375;
/** A quarter of a normal deviate's values lies within 0.3186 of its deviation. */
const quarterOfNormal = 0.3186;
const noiseSamples = 30_000;

/**
 * Of smoothed values: out of the smaller quarter of differences from the mean of the neighbours left and right, which
 * structure hardly touches (the deviation of such a difference is √1.5 of one value's).
 */
export function noiseOf({ data, widthPx, heightPx }: Level): number {
  const step = Math.max(1, Math.floor((widthPx * heightPx) / noiseSamples)) | 1;
  const sizes = new Float32Array(Math.ceil((widthPx * heightPx) / step));
  let count = 0;
  for (let at = 1; at < widthPx * heightPx - 1; at += step) {
    const column = at % widthPx;
    if (column === 0 || column === widthPx - 1) continue;
    const size = Math.abs((data[at] ?? 0) - 0.5 * ((data[at - 1] ?? 0) + (data[at + 1] ?? 0)));
    sizes[count++] = size;
  }
  const quarter = count === 0 ? 0 : nthSmallest(sizes, count, count >> 2);
  return (afterBinomial * quarter) / (quarterOfNormal * Math.sqrt(1.5));
}

/** Edges stand out from what is around them by no more than this, so that single bright points do not rule. */
const evenMost = 3;

/**
 * The structure divided by its strength, so that contrast (a look, haze, an exposure near the floor) plays no part.
 * `floor`, stops: weaker structure is left weak. Values within ±{@link evenMost}.
 */
export function evened({ data, strength, widthPx, heightPx }: Structure, floor: number): Level {
  const out = new Float32Array(data.length);
  evenContrast(data, strength, floor, evenMost, out);
  return { data: out, widthPx, heightPx };
}
