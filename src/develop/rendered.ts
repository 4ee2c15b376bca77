import type { Finding } from '../facts/index.ts';
import type { Rgb8, Size } from '../image/index.ts';
import type { NoiseProfile } from './noise-profile.ts';

export interface Rendered {
  /** Upright, encoded sRGB. */
  readonly picture: Rgb8;
  /** The same reduced further, for each edge that was asked for; never enlarged. */
  readonly smaller: readonly Rgb8[];
  /** Of the whole picture, upright, with its look's geometry, where everything is wanted at full size. */
  readonly full: Size;
  /** Assumptions that had to be made: codes `develop.*`, `look.*`. */
  readonly issues: readonly Finding[];
}

/** Tells a mosaic's noise, once it is asked for; null where it cannot be told. */
export type NoiseSource = () => NoiseProfile | null;

/** Told, while a picture is made, how many of its rows are; what it throws ends the rendering. */
export type RowWatch = (done: number, of: number) => void;

export const nobodyWatches: RowWatch = () => {};
