import type { Finding, LensCorrections, Mosaic, Orientation } from '../facts/index.ts';
import type { Region } from '../image/index.ts';
import type { ColourCalibration } from './camera-colour.ts';
import type { BadPixels } from './lens/bad-pixels.ts';

/**
 * Whoever can turn a raw file into a mosaic. Declared here, brought by `workers`; there may be several (a library in
 * WebAssembly, a native one, a test's own).
 */
export interface RawDecoder {
  /**
   * The mosaic of a whole raw file. `bytes` are read, not kept.
   * Errors: `raw-cannot-decode`, `raw-cut`, `raw-too-small`, `raw-unsupported-mosaic`, `raw-too-large`.
   * A decoder need not notice corruption inside the data: wholeness is proved elsewhere.
   * `unpack` is asked first for the samples, where the caller knows how they are packed.
   */
  decode(bytes: Uint8Array, hints?: RawHints, unpack?: Unpack): Promise<DecodedRaw>;
}

/**
 * All samples of a sensor, masked ones among them, `widthPx` x `heightPx`, row by row. They become the mosaic's. Null where it
 * cannot: then the decoder does it.
 */
export type Unpack = (widthPx: number, heightPx: number) => Uint16Array<ArrayBuffer> | null;

/** What is to be done to a raw by its maker's word, before its place on the sensor is known. */
export interface RawLens {
  /** In pixels of the stored picture, masked ones among them. */
  readonly bad: BadPixels | null;
  /** In pixels of the visible area. */
  readonly samples: LensCorrections['samples'];
  readonly steps: LensCorrections['steps'];
}

/**
 * What a camera's colours are known by, best first: forward matrices of the file, colour matrices of the file, the decoder's
 * table of cameras, a matrix the decoder made of what a maker wrote, or nothing.
 */
export type ColourSource = 'forward-matrices' | 'colour-matrices' | 'table' | 'maker' | 'none';

export interface DecodedRaw {
  readonly mosaic: Mosaic;
  /** What the colours rest on. */
  readonly colours: ColourSource;
  /** What was assumed because the file does not say: codes `develop.*`. */
  readonly issues: readonly Finding[];
}

/** What the caller read out of the tags by itself; each given one overrides what the decoder believes. */
export interface RawHints {
  /** Black for the four filter positions, in the order of `Mosaic.filters`. */
  readonly blackLevels?: readonly [number, number, number, number];
  readonly whiteLevel?: number;
  /** One black level for all, where the file states one: of data that the decoder takes it off by itself. */
  readonly black?: number;
  /** Colour filters from the corner of the visible area, row by row, where they repeat over more than 2 x 2. */
  readonly cfa?: { readonly rows: number; readonly columns: number; readonly filters: readonly number[] };
  readonly orientation?: Orientation;
  /** DNG AsShotNeutral: camera RGB of a neutral, all > 0. */
  readonly asShotNeutral?: readonly [number, number, number];
  /** DNG ColorMatrix (XYZ to camera RGB, row order) for the light of the shot. */
  readonly colorMatrix?: readonly number[];
  /** All that a DNG says of its camera's colours; `colorMatrix` goes before it. */
  readonly calibration?: ColourCalibration;
  /** DNG BaselineExposure, where the file states it: stops from scene value 1.0 to saturation. */
  readonly baselineExposureEv?: number;
  /**
   * The part of the visible area that the maker means as the picture (DNG DefaultCrop), before orientation. Its corner
   * is moved to an even row and column, so that the filters keep their places; a crop that does not fit is left out.
   */
  readonly crop?: Region;
  /** What the file's maker wants done (DNG opcode lists). */
  readonly lens?: RawLens;
}
