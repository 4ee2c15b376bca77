import type { Keep, Verified } from '../keep/index.ts';
import { readVerified, verifiedStamp } from '../keep/index.ts';
import type { BadCopies, BadCopy } from './bad-copies.ts';
import type { BadOriginals } from './bad-originals.ts';

/** Somebody who verifies looks at the page next. A look is one call about one name. */
const lookEveryMs = 2_000;

export interface HeedVerifiedOptions {
  readonly home: string;
  readonly keep: Pick<Keep, 'keptFile' | 'records' | 'on'>;
  readonly badOriginals: Pick<BadOriginals, 'allFound'>;
  readonly badCopies: Pick<BadCopies, 'allFound' | 'hear'>;
  /** Told once what was left is taken over. */
  readonly heeded?: () => void;
  /** Default: {@link lookEveryMs}. */
  readonly everyMs?: number;
}

/**
 * Takes over what `setside verify` left, by this station's start or while it runs: the command is a process of its own
 * and the journal has one writer. Settles when what lies there now is taken over; gives what ends it.
 */
export async function heedVerified(options: HeedVerifiedOptions): Promise<() => Promise<void>> {
  const { home, keep, badCopies, everyMs = lookEveryMs } = options;
  const stopHearing = keep.on((event) => badCopies.hear(event));
  let heeded: string | null = null;
  const look = async (): Promise<void> => {
    // A home that cannot be looked at now is looked at again.
    const stamp = await verifiedStamp(home).catch(() => heeded);
    if (stamp === heeded) return;
    heeded = stamp;
    const verified = await readVerified(home);
    // What cannot be read says nothing, so what was known stands.
    if (verified === null) return;
    await heed(options, verified);
    options.heeded?.();
  };
  let looking = look();
  const timer = setInterval(() => {
    looking = looking.then(look).catch(() => {});
  }, everyMs);
  timer.unref();
  await looking.catch(() => {});
  return async () => {
    clearInterval(timer);
    stopHearing();
    await looking.catch(() => {});
  };
}

async function heed(
  { keep, badOriginals, badCopies }: HeedVerifiedOptions,
  verified: Verified,
): Promise<void> {
  const { beganMs, originals, places } = verified;
  const frameOf = (arrival: string): string | null => keep.keptFile(arrival)?.frame ?? null;
  badOriginals.allFound(
    originals.flatMap((bad) => {
      const frame = frameOf(bad.arrival);
      return frame === null ? [] : { ...bad, frame };
    }),
    beganMs,
  );
  const found = places.flatMap(({ place, seq, bad }) =>
    bad.flatMap((arrival) => {
      const frame = frameOf(arrival);
      return frame === null ? [] : { arrival, frame, place, seq };
    }),
  );
  const journals = places.flatMap(({ place, journalIsBad }) => (journalIsBad ? [place] : []));
  badCopies.allFound(await stillThere(keep, found), journals);
}

/** Without the copies that were lost or made anew since they were read. */
async function stillThere(
  keep: Pick<Keep, 'records'>,
  found: readonly (BadCopy & { readonly seq: number })[],
): Promise<BadCopy[]> {
  if (found.length === 0) return [];
  const newest = new Map<string, number>();
  const firstSeq = Math.min(...found.map(({ seq }) => seq));
  for await (const record of keep.records(firstSeq))
    if (record.type === 'copied' || record.type === 'copy-lost')
      newest.set(`${record.arrival} ${record.place}`, record.seq);
  return found.filter(({ arrival, place, seq }) => (newest.get(`${arrival} ${place}`) ?? 0) <= seq);
}
