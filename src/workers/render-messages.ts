import type { RgbSpaceName } from '../colour/index.ts';
import type { ColourSource, RawHints, RenderSize, TargetBalance } from '../develop/index.ts';
import type { Finding, LensStep } from '../facts/index.ts';
import type { Orientation, Region, Size } from '../image/index.ts';
import type { Look } from '../look/index.ts';
import type { JobBoard } from './job-board.ts';
import type { OutputWish } from './output-way.ts';

/** An original to an sRGB picture on disk. */
export interface RenderJob {
  /** The original, whole, on disk. Only read. */
  readonly path: string;
  /** What its content is; the caller has looked inside. */
  readonly kind: 'raw' | 'raster';
  /**
   * Null: no look. A raster was given its tones by the camera, so of a look only geometry is applied to it, and the answer
   * says `develop.only-geometry`, or `develop.look-not-applied` where there is none.
   */
  readonly look: Look | null;
  /** What a raw is developed by in place of its own balance and its camera's matrix; null or left out: by those. */
  readonly balance?: TargetBalance | null;
  /**
   * `half` the original's edges; `full`; reduced to `longEdgePx`, never enlarged; or a `region` of the upright full-size
   * picture, pixel for pixel or smaller, of which the part inside is rendered. Full size and what is made from it take several times
   * as long as half size, except regions of a raw that this worker had a few seconds ago.
   */
  readonly size: RenderSize;
  /** `tiff` and `avif` go with `output` only. */
  readonly format: OutputFormat;
  /** Space and depth. Left out: sRGB, 8 bits, as a screen shows it. With it, `also` is left alone. */
  readonly output?: OutputWish;
  /** Written under a temporary name beside it, then renamed; an existing file is replaced. */
  readonly outPath: string;
  /**
   * Smaller ones made on the way, each written before the picture itself: from the same light, without the detour over
   * `resize`, which decodes and reduces what was just encoded.
   */
  readonly also?: readonly SmallerRendering[];
  /** What is done about the lens of a raw; default `file`. */
  readonly lens?: LensWish;
  /** Overrides what the file's tags and the decoder say. */
  readonly hints?: RawHints;
  /** Whether the job `judge` follows for the same file: the worker holds on to what it decoded, however large. */
  readonly judgedNext?: boolean;
  /** Where a raw's rendering tells how far it is, and may be called off. */
  readonly board?: JobBoard;
}

/**
 * `file`: what the maker of the raw states. `none`: nothing; gain maps of the samples are taken for part of the raw. Or steps
 * by hand in place of the maker's, in shares of the picture.
 */
export type LensWish = 'file' | 'none' | { readonly steps: readonly LensStep[] };

/** A rendering beside another one; see `RenderJob.also`. */
export interface SmallerRendering {
  readonly longEdgePx: number;
  readonly format: PictureFormat;
  readonly outPath: string;
}

/** An original to the light that a look is applied to, as OpenEXR: half floats, scene-linear Rec. 2020, balanced. */
export interface SceneJob {
  readonly path: string;
  /** A raster's light is what its camera made of it, from sRGB. */
  readonly kind: 'raw' | 'raster';
  /** As for {@link RenderJob}. */
  readonly balance?: TargetBalance | null;
  readonly size: SceneSize;
  readonly outPath: string;
  readonly hints?: RawHints;
}

/** As of a rendering, in pixels of the original; or about so wide, never enlarged. */
export type SceneSize = RenderSize | { readonly widthPx: number };

/** A raw to 16-bit linear light, as TIFF with its profile. No look. */
export interface LinearJob {
  readonly path: string;
  readonly space: RgbSpaceName;
  /** Default `half`. */
  readonly size?: 'half' | 'full';
  readonly outPath: string;
  readonly hints?: RawHints;
}

/** A rendering to a smaller one. */
export interface ResizeJob {
  /** A rendering in sRGB as `render` wrote it. */
  readonly path: string;
  readonly longEdgePx: number;
  readonly format: PictureFormat;
  readonly outPath: string;
}

/** A part of a picture that stands in for the original's: a preview cut out of it, or the camera's own smaller JPEG. */
export interface PreviewJob {
  readonly path: string;
  /** What the raw says of a preview cut out of it; null: what the file says of itself. */
  readonly orientation: Orientation | null;
  /** The upright original at full size. */
  readonly full: Size;
  /** In pixels of the upright original; answered in the preview's own pixels where those are coarser. */
  readonly region: Region;
  /** Pixels wanted per pixel of the region, 0 < scale <= 1. */
  readonly scale: number;
  readonly format: PictureFormat;
  readonly outPath: string;
}

export interface RenderAnswer {
  /** The upright original at full size, where its look placed it otherwise (geometry); left out where it did not. */
  readonly original?: Size;
  /** The whole upright picture at full size. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** What was written. */
  readonly renderedWidthPx: number;
  readonly renderedHeightPx: number;
  /** Size of the file written. */
  readonly bytes: number;
  /** Wall time inside the worker, ms. */
  readonly timings: Timings;
  /** What the colours of a raw rest on; `target` where one counts. Left out for pictures that are no raws. */
  readonly colours?: ColourSource | 'target';
  /** Assumptions and omissions: codes `develop.*`. */
  readonly issues: readonly Finding[];
}

export interface Timings {
  /** Reading the file and decoding it. */
  readonly decodeMs: number;
  /** Mosaic (or decoded raster) to bytes. */
  readonly developMs: number;
  /** Encoding and writing. */
  readonly encodeMs: number;
}

export const pictureFormats = ['jpeg', 'webp', 'png'] as const;

export type PictureFormat = (typeof pictureFormats)[number];

/** What a picture may be written as where its space and depth were chosen. */
export const outputFormats = [...pictureFormats, 'tiff', 'avif'] as const;

export type OutputFormat = (typeof outputFormats)[number];
