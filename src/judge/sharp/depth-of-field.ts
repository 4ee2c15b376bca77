/** What depth of field follows from. */
export interface DepthFacts {
  readonly focalMm: number;
  readonly fNumber: number;
  /** From the lens to the plane of focus; greater than the focal length. */
  readonly distanceMm: number;
  /** Diameter of a blur disc that still counts as a point. */
  readonly circleMm: number;
}

export interface DepthOfField {
  readonly hyperfocalMm: number;
  readonly nearMm: number;
  /** Null: as far as one can see. */
  readonly farMm: number | null;
  /** The Airy disc's diameter to its first dark ring. */
  readonly airyMm: number;
  /** With diffraction: what is left for defocus once the Airy disc has its share of the circle; null where it takes all. */
  readonly withDiffraction: { readonly nearMm: number; readonly farMm: number | null } | null;
}

/** Of 24 x 36 mm (common practice, no source). */
const fullCircleMm = 0.03;

/**
 * The blur disc that still counts as a point, mm: that of 24 x 36 mm, made smaller with the format, which is known by the
 * focal length that would show as much on 24 x 36 mm (Exif FocalLengthIn35mmFilm).
 */
export function circleOfConfusion(focalMm: number, focal35Mm: number): number {
  return (fullCircleMm * focalMm) / focal35Mm;
}

/** Green light. */
const wavelengthMm = 550e-6;

/**
 * Depth of field of a thin lens: H = f²/(N c) + f, near = s (H - f) / (H + s - 2 f), far = s (H - f) / (H - s) (handbooks,
 * such as US Navy NAVEDTRA 14209, use the form without the small f). The Airy disc's diameter is 2.4397 λ N; blur adds up
 * by squares, so sqrt(c² - airy²) is left of the circle for defocus (common practice, no source).
 */
export function depthOfField(facts: DepthFacts): DepthOfField {
  const { circleMm, fNumber } = facts;
  const airyMm = 2.4397 * wavelengthMm * fNumber;
  const left = circleMm ** 2 - airyMm ** 2;
  return {
    ...limits(facts, circleMm),
    airyMm,
    withDiffraction: left > 0 ? nearAndFar(limits(facts, Math.sqrt(left))) : null,
  };
}

type Limits = Pick<DepthOfField, 'hyperfocalMm' | 'nearMm' | 'farMm'>;

function limits({ focalMm: f, fNumber, distanceMm: s }: DepthFacts, circleMm: number): Limits {
  const hyperfocalMm = f ** 2 / (fNumber * circleMm) + f;
  return {
    hyperfocalMm,
    nearMm: (s * (hyperfocalMm - f)) / (hyperfocalMm + s - 2 * f),
    farMm: s >= hyperfocalMm ? null : (s * (hyperfocalMm - f)) / (hyperfocalMm - s),
  };
}

function nearAndFar({ nearMm, farMm }: Limits): Pick<Limits, 'nearMm' | 'farMm'> {
  return { nearMm, farMm };
}
