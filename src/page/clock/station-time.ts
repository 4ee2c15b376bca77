import type { Station } from '../../contract/index.ts';
import { fetchStation } from '../link/index.ts';

/** The station's time as this device knows it. */
export interface StationTime {
  /** Station's time minus this device's, ms. */
  readonly aheadMs: number;
  /** How far that may be wrong, ms. */
  readonly unsureMs: number;
  readonly station: Station;
}

/**
 * Asks the station for its time: it is what it says in the middle of the call, within half the time the call took
 * (RFC 5905 section 8, the offset of one exchange where both delays are taken for equal).
 */
export async function askStationTime(signal: AbortSignal): Promise<StationTime> {
  const sentMs = performance.now();
  const station = await fetchStation(signal);
  const tookMs = performance.now() - sentMs;
  const nowMs = performance.timeOrigin + performance.now();
  const saidMs = Date.parse(station.now);
  return { aheadMs: saidMs + tookMs / 2 - nowMs, unsureMs: Math.ceil(tookMs / 2) + 1, station };
}

/** Of two answers the surer one, while it is not older than a minute's drift of two clocks. */
export function surer(known: StationTime | null, fresh: StationTime): StationTime {
  if (known === null || fresh.unsureMs <= known.unsureMs) return fresh;
  return { ...known, station: fresh.station };
}

export function stationNowMs({ aheadMs }: StationTime): number {
  return performance.timeOrigin + performance.now() + aheadMs;
}
