/** Readings that a tolerance can be set for, each with its unit: the name ends in it. */
export const toleranceUnits = {
  /** 10-90 % rise of the edge that sharpness is read at. */
  edgeWidthPx: 'px',
  /** Share of the picture at saturation, small specular islands apart. */
  saturatedPercent: '%',
  /** Difference of the light from the reference, without sign. */
  lightEv: 'EV',
  /** How much of the backdrop may not be white. Setting it asks for a white backdrop. */
  backdropGreyPercent: '%',
  /** Shift of the subject against the reference. */
  shiftPx: 'px',
  shiftMm: 'mm',
  rotationDeg: '°',
  /** Change of size against the reference, without sign. */
  scalePercent: '%',
  /** CIEDE2000 over the patches of the target. */
  meanDeltaE00: 'ΔE00',
  maxDeltaE00: 'ΔE00',
  /** Distance of the neutrals from the Planckian locus against the target's, without sign. */
  neutralDuv: 'Duv',
} as const;
export type ToleranceName = keyof typeof toleranceUnits;

/** Every name in the order of the questions. */
// The keys of the object above and no others: it is a constant.
export const toleranceNames: readonly ToleranceName[] = Object.keys(toleranceUnits) as ToleranceName[];

/** Up to `good` a reading is good, above `bad` it is bad, between the two it is a doubt. 0 <= good <= bad. */
export interface Tolerance {
  readonly good: number;
  readonly bad: number;
}

/** What is left out has no limit set by a person. */
export type Tolerances = Readonly<Partial<Record<ToleranceName, Tolerance>>>;
