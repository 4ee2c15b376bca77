import { MiB } from '../base/index.ts';
import type { OpenHow } from './arrival-shapes.ts';
import type { KeepContext } from './context.ts';
import { baseName, type FileNode } from './core/folder-tree.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import { type Opening, planOpening, type Shown } from './core/opening.ts';
import { safeName } from './core/safe-name.ts';
import type { DiskFile } from './disk.ts';
import { folderError } from './errors.ts';
import type { HashSession } from './hash-session.ts';
import { LiveArrival } from './live-arrival.ts';

/**
 * Begins or resumes a file at a path whose parent is there. `node` is what the folder shows at the path.
 * Announced durably before it settles. Rejects `busy`, `too-many`, `offset-beyond-end`, and what the disk rejects.
 */
export async function openArrival(
  context: KeepContext,
  camera: string,
  path: string,
  node: FileNode | null,
  how: OpenHow,
): Promise<LiveArrival> {
  if (node !== null && context.live.has(node.arrival)) {
    throw folderError('busy', `${path} is arriving by another connection`);
  }
  const alive = [...context.live.values()].filter((live) => live.camera === camera).length;
  if (alive >= context.limits.arrivalsPerCameraMax)
    throw folderError('too-many', `${camera} has ${alive} files on their way`);
  const opening = planOpening(await shownAt(context, node), how.at);
  switch (opening.kind) {
    case 'offset-beyond-end':
      throw folderError(
        'offset-beyond-end',
        `${path} has ${opening.heldBytes} bytes, asked to go on behind them`,
      );
    case 'resume':
      return resume(context, opening, how);
    case 'fresh':
      await needRoom(context, how.announcedBytes ?? 0);
      return begin(context, camera, path, how, opening.over, 0);
    case 'prefix':
      await needRoom(context, Math.max(opening.prefixBytes, how.announcedBytes ?? 0));
      return begin(context, camera, path, how, opening.over, opening.prefixBytes);
  }
}

async function shownAt(context: KeepContext, node: FileNode | null): Promise<Shown> {
  const known = node === null ? undefined : context.state.arrivals.get(node.arrival);
  if (known === undefined) return { kind: 'nothing' };
  const { id: arrival, phase } = known;
  if (phase.kind === 'kept') return { kind: 'kept', arrival, sizeBytes: phase.file.sizeBytes };
  if (phase.kind !== 'broken-off') return { kind: 'stuck', arrival };
  const entry = await context.disk.stat(context.folders.incoming(known.incoming));
  const onDiskBytes = entry?.sizeBytes ?? 0;
  return { kind: 'broken-off', arrival, heldBytes: Math.min(phase.sizeBytes, onDiskBytes), onDiskBytes };
}

/** New files need the floor left free, and never more than there is; what has begun may end. */
async function needRoom(context: KeepContext, bytes: number): Promise<void> {
  const { freeBytes } = await context.disk.free(context.folders.home);
  if (freeBytes === 0 || freeBytes < context.diskFloorBytes || freeBytes < bytes) {
    throw folderError(
      'disk-full',
      `${freeBytes} bytes free, ${context.diskFloorBytes} to be left, ${bytes} asked for`,
    );
  }
}

async function begin(
  context: KeepContext,
  camera: string,
  path: string,
  how: OpenHow,
  over: string | null,
  prefixBytes: number,
): Promise<LiveArrival> {
  const id = context.newId();
  const incoming = `${id}-${safeName(baseName(path))}`;
  await context.journal.append({
    type: 'announced',
    arrival: id,
    frame: frameFor(context, camera, path, over),
    job: how.job ?? context.jobOf(camera),
    camera,
    path,
    incoming,
    via: how.via,
    announcedBytes: how.announcedBytes,
    prefixOf: prefixBytes > 0 ? over : null,
    prefixBytes,
    over,
  });
  const known = needKnown(context, id);
  return orBrokenOff(context, known, async () => {
    const file = await context.disk.createFile(context.folders.incoming(incoming));
    if (prefixBytes > 0 && over !== null)
      await copyPrefix(context, needKnown(context, over), file, prefixBytes);
    return live(context, known, file, prefixBytes);
  });
}

async function resume(
  context: KeepContext,
  opening: Extract<Opening, { kind: 'resume' }>,
  how: OpenHow,
): Promise<LiveArrival> {
  const known = needKnown(context, opening.arrival);
  await context.journal.append({
    type: 'resumed',
    arrival: opening.arrival,
    via: how.via,
    offsetBytes: opening.offsetBytes,
    announcedBytes: how.announcedBytes,
  });
  return orBrokenOff(context, known, async () => {
    const file = await context.disk.openFile(context.folders.incoming(known.incoming), 'write');
    return live(context, known, file, opening.offsetBytes);
  });
}

function live(context: KeepContext, known: KnownArrival, file: DiskFile, heldBytes: number): LiveArrival {
  const hash = context.parkedHashes.take(known.id, heldBytes) ?? hashOfHeld(context, known, heldBytes);
  return new LiveArrival(context, known, file, hash, heldBytes);
}

/** Hashing what is held runs beside the first bytes that come; they wait for it inside the session. */
function hashOfHeld(context: KeepContext, known: KnownArrival, heldBytes: number): HashSession {
  const hash = context.hashing.begin();
  // A failure is told by the session's digest.
  if (heldBytes > 0) hash.updateFromFile(context.folders.incoming(known.incoming), heldBytes).catch(() => {});
  return hash;
}

/** An announced file that could not be opened is not under way: says so, as far as the journal still takes it. */
async function orBrokenOff<Result>(
  context: KeepContext,
  known: KnownArrival,
  work: () => Promise<Result>,
): Promise<Result> {
  try {
    return await work();
  } catch (cause) {
    const entry = await context.disk.stat(context.folders.incoming(known.incoming)).catch(() => null);
    await context.journal
      .append({
        type: 'broken-off',
        arrival: known.id,
        sizeBytes: Math.min(known.syncedBytes, entry?.sizeBytes ?? 0),
        expectedBytes: null,
        sha256: null,
        end: 'failed',
        firstByteMs: known.firstByteMs,
        lastByteMs: null,
      })
      .catch(() => {});
    throw cause;
  }
}

/**
 * The frame a file belongs to: that of the attempt it takes up, that of the raw or JPEG beside it, or a new one.
 * A whole original under the same name is another press of the shutter (counters come round), until the bytes say
 * that it is the same file again.
 */
function frameFor(context: KeepContext, camera: string, path: string, over: string | null): string {
  const { state } = context;
  const before = over === null ? undefined : state.arrivals.get(over);
  const attempt = before ?? state.brokenOffAt(camera, path).at(-1);
  if (attempt !== undefined && isUnfinished(attempt)) return attempt.frame;
  return state.pairing.find(camera, path, context.now()) ?? context.newId();
}

function isUnfinished({ phase }: KnownArrival): boolean {
  return phase.kind === 'kept' ? phase.file.wholeness === 'damaged' : phase.kind !== 'again';
}

async function copyPrefix(
  context: KeepContext,
  from: KnownArrival,
  to: DiskFile,
  sizeBytes: number,
): Promise<void> {
  const { folders, disk } = context;
  const path =
    from.phase.kind === 'kept' ? folders.original(from.phase.file.original) : folders.incoming(from.incoming);
  const source = await disk.openFile(path, 'read');
  try {
    const buffer = new Uint8Array(MiB);
    for (let position = 0; position < sizeBytes; ) {
      const count = await source.read(buffer.subarray(0, Math.min(MiB, sizeBytes - position)), position);
      if (count === 0) throw new Error(`${path} is shorter than the ${sizeBytes} bytes to go on from`);
      await to.write([buffer.subarray(0, count)], position);
      position += count;
    }
  } finally {
    await source.close();
  }
}

function needKnown(context: KeepContext, id: string): KnownArrival {
  const known = context.state.arrivals.get(id);
  if (known === undefined) throw new Error(`arrival ${id} was journalled and is not known`);
  return known;
}
