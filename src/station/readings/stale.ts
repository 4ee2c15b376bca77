import type { KeptReadings } from '../../facts/index.ts';
import type { FrameLimits } from './frame-limits.ts';

/** Whether its pixels have to be read again: against another reference, or for a target. */
export function isStale(readings: KeptReadings, limits: FrameLimits): boolean {
  if (readings.exposed.source === 'preview') return false;
  return wantsPlace(readings, limits) || wantsTarget(readings, limits);
}

function wantsPlace({ place }: KeptReadings, limits: FrameLimits): boolean {
  return limits.place !== null && place.reference !== limits.place.frame;
}

/** Whether a target is asked for that was not looked for yet, or by the published values of another edition. */
export function wantsTarget({ colour, exposed }: KeptReadings, { target }: FrameLimits): boolean {
  if (target === null || exposed.source === 'preview') return false;
  if (colour === null) return true;
  if (!colour.found) return false;
  return target.edition === null
    ? colour.editionBy === 'given'
    : colour.edition !== target.edition || colour.editionBy !== 'given';
}
