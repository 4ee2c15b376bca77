/** Limits of a published guideline for the colours of a target. What the guideline does not limit is null. */
export interface ToleranceSet {
  /** Stable: kept in jobs. */
  readonly name: string;
  /** As the guideline names it. */
  readonly title: string;
  /** CIEDE2000 with S_L = 1 over the patches. */
  readonly meanDeltaE00: number;
  readonly percentile90DeltaE00: number | null;
  readonly maxDeltaE00: number | null;
  /** Distance of greys in a*, b*. */
  readonly greyDeltaAb: number;
}

/**
 * Guideline levels by name. A 24-patch target proves colour only: a level here is never a level of the whole picture
 * (resolution, noise and tone are judged there too), and no page may say so.
 *
 * Unverified: the figures are those of a comparison published by a digitisation service (skandalski.pl, table "FADGI / ISO
 * / Metamorfoze"), which names ISO 19264-1:2021 and FADGI 2023, bound general collections; the documents themselves were not at
 * hand. FADGI's limits are "below", ISO's "up to": the difference is less than reading error. That both take CIEDE2000 with
 * S_L = 1 is from memory.
 */
export const toleranceSets: readonly ToleranceSet[] = [
  fadgi(4, 2, 4, 2),
  fadgi(3, 3.5, 7, 4),
  fadgi(2, 5, 10, 6),
  fadgi(1, 6.5, 13, 8),
  iso('A', 4, 10, 3),
  iso('B', 5, 15, 4),
  iso('C', 5, 15, 5),
];

function fadgi(stars: number, mean: number, percentile90: number, greys: number): ToleranceSet {
  return {
    name: `fadgi-2023-${stars}-star`,
    title: `FADGI (2023), ${stars} star, colour only`,
    meanDeltaE00: mean,
    percentile90DeltaE00: percentile90,
    maxDeltaE00: null,
    greyDeltaAb: greys,
  };
}

function iso(level: string, mean: number, max: number, greys: number): ToleranceSet {
  return {
    name: `iso-19264-1-${level.toLowerCase()}`,
    title: `ISO 19264-1, level ${level}, colour only`,
    meanDeltaE00: mean,
    percentile90DeltaE00: null,
    maxDeltaE00: max,
    greyDeltaAb: greys,
  };
}
