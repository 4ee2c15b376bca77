import type { CaptureFacts } from '../../facts/index.ts';

/** EV = log2(N² / t) (ISO 2720; Exif 2.32 annex C: Av + Tv). `exposureTimeS`, `fNumber` > 0. */
export function exposureValue(fNumber: number, exposureTimeS: number): number {
  return Math.log2(fNumber ** 2 / exposureTimeS);
}

/** The same, referred to a sensitivity of 100: the light that a middling exposure is right for. */
export function exposureValue100(fNumber: number, exposureTimeS: number, sensitivity: number): number {
  return exposureValue(fNumber, exposureTimeS) - Math.log2(sensitivity / 100);
}

/** Whole and third stops are written rounded (1/125 for 2^-7 s, f/5.6 for 2^2.5): less apart is the same setting. */
export const sameStops = 0.12;

/** What the dials stand at, where all of it is known. */
export type Settings = Pick<CaptureFacts, 'exposureTimeS' | 'fNumber' | 'sensitivity'>;

/**
 * By how many stops `settings` expose more than `than` in the same light; 0 where they differ by rounding only, null where
 * either is not known.
 */
export function settingsStops(settings: Settings | null, than: Settings | null): number | null {
  const [own, other] = [ev100Of(settings), ev100Of(than)];
  if (own === null || other === null) return null;
  const stops = other - own;
  return Math.abs(stops) < sameStops ? 0 : stops;
}

function ev100Of(settings: Settings | null): number | null {
  const { exposureTimeS, fNumber, sensitivity } = settings ?? {};
  if (exposureTimeS === undefined || fNumber === undefined || sensitivity === undefined) return null;
  return exposureValue100(fNumber, exposureTimeS, sensitivity);
}
