import type { LightSourceName } from './sharp-reading.ts';

/** Three numbers of one colour. */
export type Triple = readonly [number, number, number];

/** The published values of the 24-patch target changed in November 2014; which one it is stands on its back. */
export type TargetEdition = 'before-november-2014' | 'from-november-2014';

/**
 * Why no target was read: there is none; it lies mirrored (a picture of a picture, or a film scanned from its back); it
 * reaches beyond the frame; there are two or more; something is there that is not told from a target for certain.
 */
export type NoTarget = 'none' | 'mirrored' | 'cut-off' | 'several' | 'unsure';

/** Where the target lies, in the upright picture. */
export interface TargetPlace {
  /**
   * Outer corners of the field of patches (half a step beyond the centres), as shares of the picture's width and height:
   * at dark skin, bluish green, black, white, in this order.
   */
  readonly corners: readonly [Point, Point, Point, Point];
  /** Along its six patches, px of the full-size frame. */
  readonly widthPx: number;
  /** Of its six patches against level, clockwise, -180 … 180 degrees. */
  readonly rotationDegrees: number;
}
type Point = readonly [x: number, y: number];

export interface PatchReading {
  /** 1 (dark skin) … 24 (black), row by row. */
  readonly patch: number;
  /** Linear light of the source: balanced camera RGB (1 = first channel saturates) or linear sRGB; trimmed mean. */
  readonly light: Triple;
  /** Share of its samples with a channel at saturation, %. */
  readonly saturatedPercent: number;
  /** Standard deviation of its green over its mean, %: dust, gloss, noise. */
  readonly unevenPercent: number;
  /** L*a*b* D50, the exposure put right; null where the camera's colours are not known. */
  readonly lab: Triple | null;
  readonly published: Triple;
  /** CIEDE2000 against the published value, and its parts: lightness and chroma, measured less published. */
  readonly deltaE00: number | null;
  readonly deltaL: number | null;
  readonly deltaC: number | null;
}

/** Of CIEDE2000 over the patches. */
export interface ColourSummary {
  readonly mean: number;
  /** Linear between ranks, as NumPy's default. */
  readonly percentile90: number;
  readonly max: number;
  /** Patch of the maximum. */
  readonly maxPatch: number;
  /** Root of the mean square of the lightness and of the chroma differences. */
  readonly lightness: number;
  readonly chroma: number;
}

/** What the grey patches (20 to 23) say of the balance, measured less published, both seen under D65. */
export interface GreyError {
  /** Positive is green, negative magenta. */
  readonly duv: number;
  /** Correlated colour temperature, K; positive is bluer. */
  readonly deltaK: number;
  /** Largest distance in a*, b* of one of them. */
  readonly deltaAb: number;
}

/** A camera profile for the light of one frame. */
export interface CameraProfile {
  /** Balanced camera RGB (or linear sRGB of a picture) to XYZ D50, nine numbers in row order; greys keep their white. */
  readonly toXyz: readonly number[];
  /** What it is balanced by: multipliers for red, green, blue, the smallest 1. Null of a finished picture. */
  readonly multipliers: Triple | null;
  /** Over the patches it was made from: always flattering. */
  readonly fit: ColourSummary;
  /** Each patch by a profile that was made without it: what to believe. */
  readonly leaveOneOut: ColourSummary;
  /** Patches it was made from; those that lost light are left out. */
  readonly patches: number;
}

export interface TargetReading {
  readonly found: true;
  readonly source: LightSourceName;
  readonly place: TargetPlace;
  /** 0 … 1: patches seen as such, how well they lie on a grid, how well their colours agree. */
  readonly confidence: number;
  readonly edition: TargetEdition;
  /** Who says which edition it is; `assumed` where the colours do not tell. */
  readonly editionBy: 'given' | 'recognised' | 'assumed';
  /** All 24 in order. */
  readonly patches: readonly PatchReading[];
  /** Patches where light is lost, and how many of those are greys. */
  readonly saturatedPatches: number;
  readonly saturatedGreys: number;
  /**
   * How far the greys lie above (+) or below what is published, stops; colours are compared with it put right, since
   * exposure is another question. Of a raw against the level at which its first channel saturates.
   */
  readonly exposureEv: number;
  /** As developed without a look. Null where the camera's colours are not known. */
  readonly colour: ColourSummary | null;
  /** The same with the exposure as it is, of finished pictures only. */
  readonly asIs: ColourSummary | null;
  /** With S_L = 1, as the guidelines' tolerances are meant; exposure as it is for pictures, put right for raws. */
  readonly flat: ColourSummary | null;
  readonly greys: GreyError | null;
  /** Null where too few patches are left to make one from, or the source is a preview. */
  readonly profile: CameraProfile | null;
}

/** That no target was read. */
export interface NoTargetReading {
  readonly found: false;
  readonly source: LightSourceName;
  readonly why: NoTarget;
}

/** What a frame says of its colours. */
export type ColourReading = TargetReading | NoTargetReading;

/** Figures of colour; the patches, which plots are made of, are in {@link ColourReading}. */
export type ColourFigures = Omit<TargetReading, 'patches'> | NoTargetReading;

/** Colours of parts of a frame, row by row: what stands still in it tells whether the light has changed its colour. */
export interface ColourMap {
  readonly source: LightSourceName;
  readonly columns: number;
  readonly rows: number;
  /**
   * Linear light before any balance, 1 = the channel saturates (camera RGB of a raw, linear sRGB of a picture); null where
   * light is lost or not told from noise.
   */
  readonly light: readonly (Triple | null)[];
  /** The balance the frame was taken with, the smallest 1. */
  readonly multipliers: Triple;
  /** Balanced light to XYZ D50, nine numbers in row order; null where nobody knows the camera's colours. */
  readonly toXyz: readonly number[] | null;
}

/** How colours have moved between two frames. */
export interface ColourDrift {
  /** Of the neutrals: distance in CIE 1976 u', v'. */
  readonly deltaUv: number;
  /** CIEDE2000 over the colours compared, differences of exposure taken off. */
  readonly deltaE00Mean: number;
  readonly deltaE00Max: number;
  /** From the first to the second frame, stops. */
  readonly ev: number;
}
