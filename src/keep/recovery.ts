import { dirname } from 'node:path';
import type { KeepContext } from './context.ts';
import type { KeptFile } from './core/arrival-records.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import { originalPath } from './core/original-path.ts';
import { inspectSafely } from './end-arrival.ts';
import { hashOnDisk } from './hash-on-disk.ts';
import { recordKept, settle } from './settle.ts';

/**
 * Brings every arrival that was under way when the station died to rest, by the journal and what lies on the disk.
 *
 * - `arriving`: broken off, with what is held (see {@link secureHeld}).
 * - `settling`: all its bytes had come. Moved already: finished, if size and hash are right. Not moved: moved now, if
 *   size and hash are right; else it is broken off.
 *
 * `sameBoot`: the computer has not been started again since, so that whatever was written is still there.
 */
export async function recover(context: KeepContext, sameBoot: boolean): Promise<void> {
  for (const known of context.state.openArrivals()) {
    const { phase } = known;
    if (phase.kind === 'arriving') await breakOff(context, known, sameBoot);
    if (phase.kind === 'settling' && !(await finishMove(context, known, phase.file))) {
      await breakOff(context, known, sameBoot);
    }
  }
}

async function finishMove(context: KeepContext, known: KnownArrival, file: KeptFile): Promise<boolean> {
  const { folders, disk } = context;
  const target = folders.original(file.original);
  const incoming = folders.incoming(known.incoming);
  if (await holds(context, target, file)) {
    await disk.syncFolder(dirname(target));
    await disk.syncFolder(folders.incomingFolder);
    await recordKept(context, known, file);
    return true;
  }
  if (!(await holds(context, incoming, file))) return false;
  // Somebody may have put another file there meanwhile: then the original gets a number.
  const free = (await disk.stat(target)) === null;
  const original = free
    ? file.original
    : await folders.claimOriginal(originalPath(file.job, file.camera, file.path));
  const bytes = await disk.openFile(incoming, 'write');
  try {
    await settle(context, known, { ...file, original }, () => bytes.sync());
  } finally {
    await bytes.close();
  }
  return true;
}

/** Whether a file has exactly these bytes. */
async function holds(context: KeepContext, path: string, file: KeptFile): Promise<boolean> {
  const entry = await context.disk.stat(path);
  if (entry?.kind !== 'file' || entry.sizeBytes !== file.sizeBytes) return false;
  return (await hashOnDisk(context, path, file.sizeBytes)) === file.sha256;
}

async function breakOff(context: KeepContext, known: KnownArrival, sameBoot: boolean): Promise<void> {
  const sizeBytes = await secureHeld(context, known, sameBoot);
  const wholeness = await inspectSafely(context, context.folders.incoming(known.incoming), sizeBytes);
  await context.journal.append({
    type: 'broken-off',
    arrival: known.id,
    sizeBytes,
    expectedBytes: wholeness.kind === 'cut' ? wholeness.expectedBytes : null,
    sha256: null,
    end: 'died',
    firstByteMs: known.firstByteMs,
    lastByteMs: null,
  });
}

/**
 * What a camera may build on, made durable. While the computer stays up, what was written is there: the size on the
 * disk. After power loss a file may have its full size and holes where bytes never reached the disk, so only what was
 * synced counts; the rest stays in the file and is never taken for the camera's.
 */
async function secureHeld(context: KeepContext, known: KnownArrival, sameBoot: boolean): Promise<number> {
  const { disk, folders } = context;
  const path = folders.incoming(known.incoming);
  const entry = await disk.stat(path);
  if (entry?.kind !== 'file') return 0;
  const file = await disk.openFile(path, 'write');
  try {
    await file.sync();
  } finally {
    await file.close();
  }
  await disk.syncFolder(folders.incomingFolder);
  return sameBoot ? entry.sizeBytes : Math.min(entry.sizeBytes, known.syncedBytes);
}
