import type { KeepContext } from './context.ts';
import type { KeptFile, MadeGood } from './core/arrival-records.ts';
import { isPartner, pairingWindowMs } from './core/frame-pairing.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import { hashOnDisk } from './hash-on-disk.ts';

/** What a kept file means for the broken-off ones under its name. */
export interface AttemptsWeighed {
  readonly madeGood: readonly MadeGood[];
  /** Broken-off files that go on being waited for: the kept file does not begin with their bytes. */
  readonly others: readonly KnownArrival[];
  /** Those that are made good. */
  readonly proven: readonly KnownArrival[];
}

/**
 * Which broken-off files at its path a file that lies at its original makes good: those whose bytes are proved to be its
 * first ones, and those of which nothing is held. A name alone proves nothing: counters come round and cards are formatted.
 * Reads as much of the original as each attempt holds, from the system's memory as a rule.
 */
export async function weighAttempts(
  context: KeepContext,
  known: KnownArrival,
  by: KeptFile,
): Promise<AttemptsWeighed> {
  const proven: KnownArrival[] = [];
  const others: KnownArrival[] = [];
  for (const attempt of context.state.brokenOffAt(known.camera, known.path)) {
    if (attempt.id === known.id || attempt.id === by.arrival) continue;
    // What cannot be read proves nothing, and waiting for it loses nothing.
    const isProven = await beginsWith(context, by, attempt).catch(() => false);
    (isProven ? proven : others).push(attempt);
  }
  const madeGood = proven.map(({ id }): MadeGood => ({ type: 'made-good', arrival: id, by: by.arrival }));
  return { madeGood, others, proven };
}

async function beginsWith(context: KeepContext, whole: KeptFile, attempt: KnownArrival): Promise<boolean> {
  const { disk, folders } = context;
  const { phase, folded } = attempt;
  if (phase.kind !== 'broken-off') return false;
  const { sizeBytes } = phase;
  if (sizeBytes === 0) return true;
  const path = folders.incoming(attempt.incoming);
  const known = phase.sha256 ?? (folded?.sizeBytes === sizeBytes ? folded.sha256 : null);
  if (known === null && (await disk.stat(path)) === null) return true;
  if (whole.sizeBytes < sizeBytes) return false;
  const first = await hashOnDisk(context, folders.original(whole.original), sizeBytes);
  return first === (known ?? (await hashOnDisk(context, path, sizeBytes)));
}

/**
 * The frame of a file that is kept now: that of an original with the same bytes that cannot answer for them any more, with
 * all that people chose for it; that of an attempt which it makes good, else the one it was announced in. A frame
 * in which a file of another picture is waited for stays that picture's: then it is that of the raw or JPEG beside it, or
 * a new one.
 */
export function frameOfKept(
  context: KeepContext,
  known: KnownArrival,
  { sizeBytes, sha256 }: KeptFile,
  { proven, others }: AttemptsWeighed,
): string {
  const [stale] = context.state.findSame(known.camera, known.path, sizeBytes, sha256);
  if (stale !== undefined) return stale.frame;
  // What was folded is listed no more: a frame that holds nothing else is nobody's.
  const taken = new Set(others.filter(({ folded }) => folded === null).map(({ frame }) => frame));
  const made = proven.map(({ frame }) => frame).filter((frame) => !taken.has(frame));
  const last = made.at(-1);
  if (last !== undefined && !made.includes(known.frame)) return last;
  if (!taken.has(known.frame)) return known.frame;
  return frameOfPartner(context, known, taken) ?? context.newId();
}

function frameOfPartner(
  { state }: KeepContext,
  known: KnownArrival,
  taken: ReadonlySet<string>,
): string | null {
  const near = [...state.arrivals.values()].filter(
    ({ camera, announcedMs, phase }) =>
      camera === known.camera &&
      phase.kind === 'kept' &&
      Math.abs(announcedMs - known.announcedMs) <= pairingWindowMs,
  );
  const full = new Set(near.filter(({ path }) => path === known.path).map(({ frame }) => frame));
  const partner = near.findLast(
    ({ path, frame }) => isPartner(path, known.path) && !taken.has(frame) && !full.has(frame),
  );
  return partner?.frame ?? null;
}
