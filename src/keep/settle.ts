import { dirname } from 'node:path';
import type { KeepContext } from './context.ts';
import type { KeptFile } from './core/arrival-records.ts';
import { baseName } from './core/folder-tree.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import { originalPath } from './core/original-path.ts';
import type { DiskFolder } from './disk.ts';
import { frameOfKept, weighAttempts } from './made-good.ts';

export interface Settled
  extends Pick<KeptFile, 'sizeBytes' | 'sha256' | 'wholeness' | 'firstByteMs' | 'lastByteMs'> {
  readonly expectedBytes?: number | null;
}

/** Everything that will be said of a file once it is kept, with a place of its own among the originals. */
export async function describeKept(
  context: KeepContext,
  known: KnownArrival,
  settled: Settled,
): Promise<KeptFile> {
  const original = await context.folders.claimOriginal(originalPath(known.job, known.camera, known.path));
  return {
    arrival: known.id,
    frame: known.frame,
    job: known.job,
    camera: known.camera,
    path: known.path,
    name: baseName(known.path),
    original,
    expectedBytes: null,
    ...settled,
  };
}

/**
 * Moves a file with all its bytes from `incoming/` to where it stays. In this order, each step durable before the
 * next: bytes, and beside them word of what is about to happen; the move; the folder that gained a name, then the one
 * that lost it (the other way round a crash between the two could leave the file in neither); the `kept` record.
 * Only after this may the camera be told. `makeDurable` syncs the bytes.
 */
export async function settle(
  context: KeepContext,
  known: KnownArrival,
  file: KeptFile,
  makeDurable: () => Promise<void>,
): Promise<void> {
  const { disk, folders, journal } = context;
  const target = folders.original(file.original);
  await folders.make(dirname(target));
  // The folders are opened beside the sync: once the bytes are durable each step is one call of the system.
  const gaining = disk.openFolder(dirname(target));
  const losing = disk.openFolder(folders.incomingFolder);
  try {
    await Promise.all([makeDurable(), journal.append({ type: 'settling', ...file }), gaining, losing]);
    await disk.rename(folders.incoming(known.incoming), target);
    await (await gaining).sync();
    await (await losing).sync();
  } finally {
    closeUnwaited(gaining);
    closeUnwaited(losing);
  }
  await recordKept(context, known, file);
}

/** A folder whose sync has succeeded or failed has nothing more to say. */
function closeUnwaited(opened: Promise<DiskFolder>): void {
  opened.then((folder) => folder.close()).catch(() => {});
}

/** The `kept` record, and in the same group word of the broken-off files that this one is proved to make good. */
export async function recordKept(context: KeepContext, known: KnownArrival, file: KeptFile): Promise<void> {
  const weighed = await weighAttempts(context, known, file);
  const frame = frameOfKept(context, known, file, weighed);
  // The camera may have renamed it meanwhile.
  const named = { ...file, frame, path: known.path, name: baseName(known.path) };
  await context.journal.append({ type: 'kept', ...named }, ...weighed.madeGood);
}
