import { MiB } from '../base/index.ts';
import type { KeepContext } from './context.ts';
import { type Keeper, keeperOf } from './core/folding.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import type { DiskEntry } from './disk.ts';
import { diskErrorCode } from './errors.ts';
import { hashOnDisk } from './hash-on-disk.ts';
import { arrivalsByIncoming } from './incoming-held.ts';

/** What one pass over `incoming/` gave back to the disk. */
export interface FoldReport {
  readonly files: number;
  readonly bytes: number;
  /** What the disk refused, or null: the rest waits for the next pass. */
  readonly failure: 'disk-full' | 'disk-failed' | null;
  /** Whether the pass ended because it had read enough, and another has something to do. */
  readonly more: boolean;
}

/**
 * Bytes of attempts that one pass reads, the last attempt to its end: a home with a season of doubles is worked off piece
 * by piece, so that the disk has time for the cameras in between.
 */
const bytesAtOnceDefault: number = 256 * MiB;

/**
 * Folds attempts away whose bytes another file holds from its first byte on: proved by reading both, journalled, and only
 * then taken off the disk, by an operation that compares the two once more. Everything else in `incoming/` stays.
 * Decision 0009 says why. One pass at a time; may be repeated after any crash.
 */
export async function foldDoubles(
  context: KeepContext,
  isClosing: () => boolean,
  bytesAtOnceMax: number = bytesAtOnceDefault,
): Promise<FoldReport> {
  const { disk, folders } = context;
  const done = { files: 0, bytes: 0, failure: null as FoldReport['failure'], more: false };
  let readBytes = 0;
  try {
    for (const { known, entry } of await attempts(context)) {
      if (isClosing() || done.failure === 'disk-full') break;
      done.more = readBytes >= bytesAtOnceMax;
      if (done.more) break;
      try {
        const outcome = await fold(context, known, entry, isClosing);
        if (outcome !== 'not-asked') readBytes += entry.sizeBytes;
        if (outcome !== 'folded') continue;
        done.files += 1;
        done.bytes += entry.sizeBytes;
      } catch (cause) {
        done.failure = diskErrorCode(cause);
      }
    }
    if (done.files > 0) await disk.syncFolder(folders.incomingFolder);
  } catch (cause) {
    done.failure = diskErrorCode(cause);
  }
  return done;
}

/** What lies in `incoming/` and is not on its way, the shortest first: of several that hold each other the longest is left. */
async function attempts(context: KeepContext): Promise<{ known: KnownArrival; entry: DiskEntry }[]> {
  const entries = await context.disk.list(context.folders.incomingFolder);
  const known = arrivalsByIncoming(context.state, entries);
  return entries
    .toSorted((a, b) => a.sizeBytes - b.sizeBytes)
    .flatMap((entry) => {
      const arrival = known.get(entry.name);
      return arrival === undefined || entry.kind !== 'file' || context.live.has(arrival.id)
        ? []
        : [{ known: arrival, entry }];
    });
}

/** `stays`: it was read, and it is not proved that another file holds its bytes. `not-asked`: nothing was read. */
async function fold(
  context: KeepContext,
  known: KnownArrival,
  entry: DiskEntry,
  isClosing: () => boolean,
): Promise<'folded' | 'stays' | 'not-asked'> {
  const { disk, folders, journal, state, unproved } = context;
  const { sizeBytes } = entry;
  const keeper = keeperOf(state, known, sizeBytes);
  if (keeper === null) return 'not-asked';
  // Reading both costs time; what was not the same is not read again while the station runs.
  const asked = `${known.id} ${sizeBytes} ${keeper.arrival} ${keeper.sizeBytes}`;
  if (unproved.has(asked)) return 'not-asked';
  const path = folders.incoming(known.incoming);
  const keeperPath =
    keeper.original === null ? folders.incoming(keeper.incoming) : folders.original(keeper.original);
  const sha256 = await provenDouble(context, path, sizeBytes, keeperPath, keeper);
  if (sha256 === null) {
    unproved.add(asked);
    return 'stays';
  }
  if (known.folded === null) {
    await journal.append({ type: 'folded', arrival: known.id, into: keeper.arrival, sizeBytes, sha256 });
  }
  return !isClosing() && (await disk.discardDouble(path, keeperPath)) ? 'folded' : 'stays';
}

/** SHA-256 of the attempt, where the keeper is as it was received and begins with the very same bytes; else null. */
async function provenDouble(
  context: KeepContext,
  path: string,
  sizeBytes: number,
  keeperPath: string,
  keeper: Keeper,
): Promise<string | null> {
  const found = await context.disk.stat(keeperPath);
  if (found?.kind !== 'file' || found.sizeBytes < keeper.sizeBytes) return null;
  if (keeper.original !== null && found.sizeBytes !== keeper.sizeBytes) return null;
  if (keeper.sha256 !== null) {
    // An original that was altered since proves nothing, and the attempt may hold what it lost.
    if ((await hashOnDisk(context, keeperPath, keeper.sizeBytes)) !== keeper.sha256) return null;
  }
  const first = await hashOnDisk(context, keeperPath, sizeBytes);
  const attempt = await hashOnDisk(context, path, sizeBytes);
  return attempt === first ? attempt : null;
}
