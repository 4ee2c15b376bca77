import type { RawHints } from '../develop/index.ts';
import type { FrameReadings, ShareBox } from '../facts/index.ts';
import type { Orientation } from '../image/index.ts';
import type { PlacePlane, PlainSides, ReadingWishes } from '../judge/index.ts';
import type { Timings } from './render-messages.ts';

/** What is read in the pixels of an original, or of a preview cut out of it. */
export interface JudgeJob {
  /** The original, as for {@link RenderJob}; of a preview only its name among the jobs. */
  readonly path: string;
  readonly kind: 'raw' | 'raster' | 'preview';
  readonly wishes: ReadingWishes;
  readonly hints?: RawHints;
  /** Of a preview. */
  readonly preview?: PreviewPixels;
}

export interface PreviewPixels {
  readonly jpeg: Uint8Array;
  /** Still to be applied to the preview. */
  readonly orientation: Orientation;
  /** Width of the upright original at full size. */
  readonly fullWidthPx: number;
}

export interface JudgeAnswer {
  readonly readings: FrameReadings;
  /** The upright picture that was read. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Wall time inside the worker, ms. */
  readonly timings: Pick<Timings, 'decodeMs'> & { readonly judgeMs: number };
}

/** What frames are laid on, of the original that they are held against. */
export interface PlaceJob {
  readonly path: string;
  readonly kind: 'raw' | 'raster';
  readonly hints?: RawHints;
}

export interface PlaceAnswer {
  readonly plane: PlacePlane;
  /** The upright picture. */
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A rendering of ours, in sRGB. */
export interface SurroundJob {
  readonly path: string;
}

export interface SurroundAnswer {
  /** Of the rendering. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** What stands before a plain backdrop, shares of the picture; null where it is not told from it. */
  readonly subject: ShareBox | null;
  /** Sides along which the backdrop is plain. */
  readonly plain: PlainSides;
}
