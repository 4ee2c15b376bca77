import type { Orientation } from './capture-facts.ts';
import type { LensCorrections } from './lens-corrections.ts';
import type { RawLayout } from './raw-layout.ts';

/**
 * The bare sensor values of one raw file, as decoded, nothing subtracted or scaled: what `develop` starts from.
 * Whoever receives a mosaic owns its buffer; decoders hand it over by transfer.
 */
export interface Mosaic {
  /** `values[row * widthPx + column]`, the visible area only, before orientation; 0 … 65535. */
  readonly values: Uint16Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /**
   * Colour filter at (row, column) is `filters[(row % 2) * 2 + (column % 2)]`; 0 red, 1 green, 2 blue,
   * the greens on a diagonal. Other layouts (6x6, monochrome, already demosaiced) are not a `Mosaic`.
   */
  readonly filters: readonly [number, number, number, number];
  /** Black level for each of the four filter positions, in the order of `filters`. */
  readonly blackLevels: readonly [number, number, number, number];
  /** The value at which the sensor saturates; > every black level. */
  readonly whiteLevel: number;
  /** As-shot multipliers for red, green, blue that make a neutral neutral, green = 1. */
  readonly asShotMultipliers: readonly [number, number, number];
  /**
   * CIE XYZ (D65-relative) to camera RGB, row-major 3x3, or null where the file and the decoder know none.
   */
  readonly xyzToCamera: readonly number[] | null;
  /** CIE 1931 x, y of the light that the as-shot multipliers take for white; left out where it cannot be told. */
  readonly asShotWhite?: readonly [x: number, y: number];
  readonly orientation: Orientation;
  /**
   * Stops by which scene values are raised, that is from scene value 1.0 (a white diffuse surface) up to saturation of the
   * channel that saturates first: DNG BaselineExposure where the file states it, else the decoder's named assumption.
   */
  readonly baselineExposureEv: number;
  /**
   * Where samples are no 2x2 mosaic: how they lie. `filters` mean nothing then, and one black level holds for all. Left out
   * for a 2x2 mosaic.
   */
  readonly layout?: RawLayout;
  /** What is done while a picture is made of it; the samples here are without. Left out where there is nothing to do. */
  readonly lens?: LensCorrections;
}
