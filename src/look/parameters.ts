/** What a parameter is counted in. */
export type ParameterUnit =
  /** Stops: powers of two of light. */
  | 'ev'
  | 'kelvin'
  /** Distance from the Planckian locus in CIE 1960 u, v. */
  | 'duv'
  /** 1 is the whole: diffuse white, full lightness, all there is. */
  | 'share'
  /** A plain number that multiplies or raises. */
  | 'factor'
  /** log10 of light, as densitometers read. */
  | 'density'
  | 'degrees'
  /** Pixels of the picture at full size. */
  | 'px'
  /** Chroma of OKLCh, 0 … about 0.3. */
  | 'chroma'
  /** Standard deviations of the picture's own noise. */
  | 'sigma';

/** One knob of a look. */
export interface Parameter {
  readonly unit: ParameterUnit;
  readonly min: number;
  readonly max: number;
  /** The value that does nothing; null where the part of the look has to be left out for that. */
  readonly neutral: number | null;
  /** Where a knob stands when its part is added. */
  readonly start: number;
  /** A comfortable step of a knob; looks may hold any value of the range. */
  readonly step: number;
}

/**
 * Every number of a look: unit, range, neutral value, the one place where they are said. Names are the member's path;
 * members of lists have the list's name in front. The page draws its knobs from this, the schema takes its bounds from it,
 * and `words` has a name and a description for each.
 */
export const parameters = {
  exposureEv: { unit: 'ev', min: -5, max: 5, neutral: 0, start: 0, step: 0.05 },
  'balance.temperatureK': { unit: 'kelvin', min: 1667, max: 25_000, neutral: null, start: 5500, step: 50 },
  'balance.duv': { unit: 'duv', min: -0.05, max: 0.05, neutral: null, start: 0, step: 0.0005 },
  'balance.rgb': { unit: 'factor', min: 1e-4, max: 16, neutral: null, start: 0.18, step: 0.001 },
  flare: { unit: 'share', min: 0, max: 0.1, neutral: 0, start: 0, step: 0.001 },
  falloffEv: { unit: 'ev', min: -3, max: 3, neutral: 0, start: 0, step: 0.05 },
  'curve.pivot': { unit: 'share', min: 0.05, max: 0.5, neutral: null, start: 0.18, step: 0.005 },
  'curve.gamma': { unit: 'factor', min: 0.5, max: 3, neutral: null, start: 1.3, step: 0.02 },
  'curve.toeEv': { unit: 'ev', min: 1, max: 12, neutral: null, start: 4, step: 0.1 },
  'curve.shoulder': { unit: 'factor', min: 0.25, max: 4, neutral: null, start: 1, step: 0.05 },
  'curve.whiteEv': { unit: 'ev', min: 1, max: 10, neutral: null, start: 3, step: 0.05 },
  'curve.densityRange': { unit: 'density', min: 1, max: 5, neutral: null, start: 3, step: 0.05 },
  'cdl.slope': { unit: 'factor', min: 0, max: 16, neutral: 1, start: 1, step: 0.01 },
  'cdl.offset': { unit: 'share', min: -4, max: 4, neutral: 0, start: 0, step: 0.002 },
  'cdl.power': { unit: 'factor', min: 0.01, max: 16, neutral: 1, start: 1, step: 0.01 },
  'cdl.saturation': { unit: 'factor', min: 0, max: 8, neutral: 1, start: 1, step: 0.01 },
  'bands.hueDeg': { unit: 'degrees', min: 0, max: 360, neutral: null, start: 30, step: 1 },
  'bands.reachDeg': { unit: 'degrees', min: 40, max: 180, neutral: null, start: 60, step: 1 },
  'bands.lightness': { unit: 'factor', min: -1, max: 1, neutral: 0, start: 0, step: 0.02 },
  'bands.chroma': { unit: 'share', min: -1, max: 1, neutral: 0, start: 0, step: 0.02 },
  'bands.turnDeg': { unit: 'degrees', min: -45, max: 45, neutral: 0, start: 0, step: 0.5 },
  'monochrome.amount': { unit: 'share', min: 0, max: 1, neutral: 0, start: 1, step: 0.05 },
  'monochrome.bands.hueDeg': { unit: 'degrees', min: 0, max: 360, neutral: null, start: 30, step: 1 },
  'monochrome.bands.reachDeg': { unit: 'degrees', min: 40, max: 180, neutral: null, start: 90, step: 1 },
  'monochrome.bands.ev': { unit: 'ev', min: -2, max: 2, neutral: 0, start: 0, step: 0.05 },
  'tint.darkHueDeg': { unit: 'degrees', min: 0, max: 360, neutral: null, start: 250, step: 1 },
  'tint.darkChroma': { unit: 'chroma', min: 0, max: 0.1, neutral: 0, start: 0, step: 0.002 },
  'tint.lightHueDeg': { unit: 'degrees', min: 0, max: 360, neutral: null, start: 80, step: 1 },
  'tint.lightChroma': { unit: 'chroma', min: 0, max: 0.1, neutral: 0, start: 0, step: 0.002 },
  'tint.crossing': { unit: 'share', min: 0.2, max: 0.8, neutral: null, start: 0.5, step: 0.01 },
  'smoothing.luma': { unit: 'sigma', min: 0, max: 4, neutral: 0, start: 0, step: 0.05 },
  'smoothing.chroma': { unit: 'sigma', min: 0, max: 4, neutral: 0, start: 0, step: 0.05 },
  'acutance.widthPx': { unit: 'px', min: 0.3, max: 5, neutral: null, start: 0.8, step: 0.1 },
  'acutance.strength': { unit: 'factor', min: 0, max: 3, neutral: 0, start: 0, step: 0.05 },
  'acutance.gate': { unit: 'sigma', min: 0, max: 6, neutral: null, start: 1, step: 0.1 },
  'grain.sizePx': { unit: 'px', min: 1, max: 12, neutral: null, start: 2, step: 0.1 },
  'grain.density': { unit: 'density', min: 0, max: 0.2, neutral: 0, start: 0, step: 0.002 },
  'geometry.straightenDeg': { unit: 'degrees', min: -15, max: 15, neutral: 0, start: 0, step: 0.05 },
  'geometry.crop.across': { unit: 'factor', min: 1, max: 100, neutral: null, start: 4, step: 1 },
  'geometry.crop.down': { unit: 'factor', min: 1, max: 100, neutral: null, start: 5, step: 1 },
  'geometry.crop.size': { unit: 'share', min: 0.05, max: 1, neutral: null, start: 1, step: 0.01 },
  'geometry.crop.centreX': { unit: 'share', min: 0, max: 1, neutral: null, start: 0.5, step: 0.005 },
  'geometry.crop.centreY': { unit: 'share', min: 0, max: 1, neutral: null, start: 0.5, step: 0.005 },
  'geometry.lines': { unit: 'share', min: 0, max: 1, neutral: null, start: 0.5, step: 0.001 },
} as const satisfies Record<string, Parameter>;

export type ParameterName = keyof typeof parameters;
