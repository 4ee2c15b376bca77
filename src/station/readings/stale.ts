import type { KeptReadings } from '../../facts/index.ts';
import type { FrameLimits } from './frame-limits.ts';

/** Whether its pixels have to be read again: against another reference, or for a target. */
export function isStale(readings: KeptReadings, limits: FrameLimits): boolean {
  if (readings.exposed.source === 'preview') return false;
  return wantsPlace(readings, limits) || wantsTarget(readings, limits);
}

/** Whether its place was to be held against something whose file could not be read, or was not here yet. */
export function waitsForReference({ place }: KeptReadings, limits: FrameLimits): boolean {
  const { shift, reference } = place;
  if (limits.place === null || reference !== limits.place.frame || shift === null) return false;
  return 'unknown' in shift && shift.unknown === 'reference-unread';
}

/**
 * What its pixels have to be read again for, as a text that is the same for the same need; null for nothing.
 * `referenceFiles`: hashes of the files that are here of what its place is held against.
 */
export function rereadNeed(
  readings: KeptReadings,
  limits: FrameLimits,
  referenceFiles: readonly string[],
): string | null {
  const waits = waitsForReference(readings, limits) && readings.exposed.source !== 'preview';
  if (!isStale(readings, limits) && !(waits && referenceFiles.length > 0)) return null;
  return JSON.stringify([limits.place?.frame ?? null, limits.target, waits ? referenceFiles : null]);
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
