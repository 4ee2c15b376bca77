/**
 * What is to be done about a lens, or by word of a raw's maker, in the order of `steps`. Positions are shares or pixels of
 * `area`, the part of the sensor that the figures were made for, as the sensor lies.
 */
export interface LensCorrections {
  readonly area: { readonly widthPx: number; readonly heightPx: number };
  /** Where the mosaic lies within the area, pixels. */
  readonly leftPx: number;
  readonly topPx: number;
  /** On the samples, before colour is found from them. */
  readonly samples: readonly GainMap[];
  /** On the picture. */
  readonly steps: readonly LensStep[];
}

export type LensStep = LensWarp | LensFisheye | RadialGain | GainMap;

/**
 * Where light is found that is shown at a point: DNG 1.7.1, chapter 7, WarpRectilinear. With the distance from the centre
 * d, in units of the farthest corner's, and its length r: d times f(r), and the tangential part t0, t1 (Brown-Conrady).
 */
export interface LensWarp {
  readonly kind: 'warp';
  /** One for all colours, or one each for red, green, blue. */
  readonly planes: readonly WarpPlane[];
  /** Shares of the area's width and height. */
  readonly centre: readonly [x: number, y: number];
}

export interface WarpPlane {
  /** Coefficients of r^0, r^1, r^2 … */
  readonly radial: readonly number[];
  readonly tangential: readonly [number, number];
  /** Distances within which the polynomial holds; beyond, the nearest counts. */
  readonly range: readonly [number, number];
  /** Whether f is one over the polynomial. */
  readonly isReciprocal: boolean;
}

/** The same for a fisheye lens (WarpFisheye): f = (k0 a + k1 a^3 + k2 a^5 + k3 a^7) / r, a = arctan r. */
export interface LensFisheye {
  readonly kind: 'fisheye';
  readonly planes: readonly (readonly [number, number, number, number])[];
  readonly centre: readonly [x: number, y: number];
}

/** Light times 1 + k0 r^2 + k1 r^4 + … + k4 r^10 (FixVignetteRadial). */
export interface RadialGain {
  readonly kind: 'radial-gain';
  readonly k: readonly [number, number, number, number, number];
  readonly centre: readonly [x: number, y: number];
}

/** Light times a map of factors, linear between its points, held beyond them (GainMap). */
export interface GainMap {
  readonly kind: 'gain-map';
  /** Pixels of the area: top and left belong to it, bottom and right do not. */
  readonly within: readonly [top: number, left: number, bottom: number, right: number];
  /** First colour and how many. */
  readonly plane: number;
  readonly planes: number;
  /** Every how many-th row and column, from `within` on. */
  readonly rowPitch: number;
  readonly columnPitch: number;
  readonly pointsV: number;
  readonly pointsH: number;
  /** Shares of the area's height and width. */
  readonly spacing: readonly [v: number, h: number];
  readonly origin: readonly [v: number, h: number];
  readonly mapPlanes: number;
  /** `gains[(v * pointsH + h) * mapPlanes + plane]`. */
  readonly gains: Float32Array;
}
