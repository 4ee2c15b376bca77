/**
 * What sharpness was read on: the green of a raw at full size, a finished picture at full size, or a preview, whose
 * camera has sharpened it and which may be smaller: that is preliminary, and never compared with the others.
 */
export const lightSources = ['raw', 'picture', 'preview'] as const;
export type LightSourceName = (typeof lightSources)[number];

/** A part of the upright picture, shares of its width and height, 0 … 1. */
export interface ShareBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** By whom a focus spot was told: a person, the camera's metadata, or nobody, and then the sharpest well-lit region counts. */
export const spotTellers = ['given', 'camera', 'sharpest'] as const;
export type SpotTeller = (typeof spotTellers)[number];

/**
 * The width of edges, in pixels of the full-size frame. The pixel's own aperture is in every figure, as it is in the
 * samples; so is a sharpening that a camera gave to a finished picture.
 */
export interface EdgeWidth {
  /** 10-90 % rise of the edge-spread function, px. */
  readonly widthPx: number;
  /** Standard deviation of {@link widthPx}, px. */
  readonly errorPx: number;
  /** Standard deviation of the Gaussian that fits best, px. */
  readonly sigmaPx: number;
  /** Frequency at which the response is a half, cycles/pixel; null where it never is. */
  readonly mtf50: number | null;
  /** Height of the edges against the noise of one sample, median. */
  readonly snr: number;
  /** How many edges it rests on; >= 1. */
  readonly edges: number;
  /** 0 … 1: how far one can rely on it, by the number of edges and their errors. */
  readonly confidence: number;
}

/**
 * `movement`: blur that depends on direction; `focus`: blur that does not; `unknown`: the edges do not tell;
 * `movement-elsewhere`: so say edges of the rest of the picture, and at the spot none lies across that way.
 */
export const blurKinds = ['movement', 'movement-elsewhere', 'focus', 'unknown'] as const;

export interface BlurKind {
  readonly kind: (typeof blurKinds)[number];
  /** Of a movement: degrees from level, clockwise as the upright picture is seen, 0 … 180. */
  readonly directionDegrees: number | null;
  /** Of a movement: length of the line that a point became, px. */
  readonly lengthPx: number | null;
}

/** Figures of sharpness; what plots are made of is in {@link SharpReading}. */
export interface SharpFigures {
  readonly source: LightSourceName;
  /** Pixels of the full-size frame for one of those that were read: 1, more for a smaller preview. */
  readonly samplePx: number;
  /** Where the verdict speaks of, and by whom that was told; null where nothing could be read anywhere. */
  readonly spot: (ShareBox & { readonly teller: SpotTeller }) | null;
  /** At the spot; null where no edge there could be read. */
  readonly atSpot: EdgeWidth | null;
  /** The sharpest region beside the spot, where it is clearly sharper; null otherwise. */
  readonly elsewhere: (EdgeWidth & ShareBox) | null;
  /** Of the blur at the spot. */
  readonly blur: BlurKind;
}

export interface SharpReading extends SharpFigures {
  readonly map: SharpMap;
  /** Of the edge at the spot whose width is nearest to the figure; null where there is no figure. */
  readonly profile: EdgeProfile | null;
}

/** How the light rises across one edge, from its dark side to its bright one; shading beside it is taken off. */
export interface EdgeProfile {
  /** Middle of the edge, shares of the upright picture. */
  readonly x: number;
  readonly y: number;
  /** Direction across it: degrees from level, clockwise as the upright picture is seen, 0 … 180. */
  readonly acrossDegrees: number;
  /** Of the first height, px from the middle of the edge, and from one height to the next. */
  readonly fromPx: number;
  readonly stepPx: number;
  /** Mean light of each step: 0 is the dark side, 1 the bright one; three decimals; null where no sample lay. */
  readonly heights: readonly (number | null)[];
  /** Where it has risen to 10 % and to 90 %, px from the middle. */
  readonly tenPx: number;
  readonly ninetyPx: number;
}

/** 10-90 % rise by tile of the upright picture, row by row, px; null where no edge was read. */
export interface SharpMap {
  readonly columns: number;
  readonly rows: number;
  /** Where each column and each row of tiles ends, shares of the picture; the last is 1. */
  readonly columnEnds: readonly number[];
  readonly rowEnds: readonly number[];
  readonly widthsPx: readonly (number | null)[];
}
