import type { EpochMs } from '../../base/index.ts';
import type { Verified } from '../core/verified.ts';
import type { VerifyReport } from '../verify.ts';
import type { CopiesReport } from './verify-copies.ts';

/**
 * What a reading that began then leaves for the station. Of a place that was away or could not be read, what `before`
 * found there stands.
 */
export function verifiedBy(
  beganMs: EpochMs,
  { seq, bad }: Pick<VerifyReport, 'seq' | 'bad'>,
  copies: readonly Pick<CopiesReport, 'place' | 'wasRead' | 'bad' | 'journalIsBad'>[],
  before: Verified | null,
): Verified {
  return {
    beganMs,
    originals: bad.map(({ arrival, trouble }) => ({ arrival, trouble })),
    places: copies.flatMap(({ place, wasRead, bad: arrivals, journalIsBad }) =>
      wasRead
        ? [{ place, seq, bad: arrivals, journalIsBad }]
        : (before?.places.filter((known) => known.place === place) ?? []),
    ),
  };
}
