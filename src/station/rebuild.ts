import { createHash, randomUUID } from 'node:crypto';
import { rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { errorMessage } from '../base/index.ts';
import { trayCode } from '../job/index.ts';
import { type Keep, openKeep } from '../keep/index.ts';
import type { MetadataReader } from '../metadata/index.ts';
import { type FrameRow, openRegister, type Register, rebuildRegister } from '../register/index.ts';
import { ExifToolReader } from '../workers/index.ts';
import { inspectFile } from './arrival-watch.ts';
import { arrivalOf, CameraClocks } from './cameras/camera-clocks.ts';
import { defaults } from './core/options.ts';
import { factsOfFile, withCameAlong } from './frame-facts.ts';
import { pathOfFile } from './frame-files.ts';
import { cameAlong } from './rating.ts';
import { fileToShow } from './render-source.ts';
import { zoneOffsetMinutes } from './zone.ts';

export interface RebuildReport {
  readonly frames: number;
  /** Hash of the ordered dump before, or null where there was no register that could be read. */
  readonly before: string | null;
  readonly after: string;
  /** Files whose bytes could not be read again. */
  readonly unread: readonly string[];
}

export interface RebuildProgress {
  readonly doneFrames: number;
}

/**
 * Makes the register anew from the journal and the files, beside the old one, and puts it in its place when it is
 * done. No station may run on the home meanwhile. Renderings are a cache and are found or made again by the next
 * station. Rejects `home-in-use` and what the disk rejects; then the old register stands as it was.
 */
export async function rebuildHome(
  home: string,
  onProgress: (progress: RebuildProgress) => void = () => {},
): Promise<RebuildReport> {
  const keep = await openKeep({
    home,
    inspect: async ({ path, sizeBytes }) => (await inspectFile(path, sizeBytes)).wholeness,
    newId: () => randomUUID(),
    now: Date.now,
    jobOf: () => trayCode,
    diskFloorBytes: defaults.diskFloorBytes,
    hashWorkers: 0,
  });
  const reader = new ExifToolReader();
  try {
    return await rebuildBeside(home, keep, reader, onProgress);
  } finally {
    await reader.close();
    await keep.close();
  }
}

async function rebuildBeside(
  home: string,
  keep: Keep,
  reader: MetadataReader,
  onProgress: (progress: RebuildProgress) => void,
): Promise<RebuildReport> {
  const place = join(home, 'setside.db');
  const beside = join(home, 'setside.db.rebuilding');
  const before = await hashOfRegisterAt(place, keep, home, reader);
  await removeRegister(beside);
  const register = await openRegister(beside);
  let frames = 0;
  let after: string;
  const unread: string[] = [];
  try {
    await rebuildRegister(register, keep.records());
    const clocks = await clocksOf(register);
    for await (const row of everyFrame(register)) {
      onProgress({ doneFrames: frames });
      frames += 1;
      await findOut(register, row, home, reader, clocks).catch((thrown: unknown) => {
        unread.push(`${row.name}: ${errorMessage(thrown)}`);
      });
    }
    after = await hashOfDump(register);
  } finally {
    await register.close();
  }
  await removeRegister(place);
  await rename(beside, place);
  return { frames, before, after, unread };
}

/** What `developing` and `frame-flow` note of a frame's bytes, found out again. */
async function findOut(
  register: Register,
  row: FrameRow,
  home: string,
  reader: MetadataReader,
  clocks: CameraClocks,
): Promise<void> {
  const file = fileToShow(row) ?? row.files[0];
  if (file === undefined) return;
  const path = pathOfFile(home, file);
  // A station that was killed between announcing a file and taking its first byte left no file.
  if (file.sha256 === null && !(await exists(path))) return;
  const inspection = await inspectFile(path, file.sizeBytes);
  const found = await factsOfFile(path, inspection, reader, zoneOffsetMinutes());
  const along =
    file.sha256 === null
      ? { rating: null, sidecar: null }
      : await cameAlong(row, file, found.kind, (each) => pathOfFile(home, each), reader);
  const { kind, capture } = withCameAlong(found, along);
  if (kind === 'empty' && file.sha256 === null) return;
  const shutterMs = clocks.shutterMs(capture, row.camera, arrivalOf(row, Number.POSITIVE_INFINITY));
  await register.upsertFacts(row.id, { kind, capture, shutterMs });
}

async function clocksOf(register: Register): Promise<CameraClocks> {
  const known = new CameraClocks();
  for (const { name, clocks } of await register.cameras()) known.load(name, clocks);
  return known;
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}

async function* everyFrame(register: Register): AsyncGenerator<FrameRow> {
  // Facts move frames to their place in time, so the ids are listed before the first is touched.
  const ids: string[] = [];
  let after: string | null = null;
  do {
    const page: Awaited<ReturnType<Register['framesPage']>> = await register.framesPage({
      limit: 500,
      ...(after === null ? {} : { after }),
    });
    ids.push(...page.frames.map(({ id }) => id));
    after = page.next;
  } while (after !== null);
  for (const id of ids) {
    const row = await register.frame(id);
    if (row !== null) yield row;
  }
}

/**
 * The old register, brought up to the journal's end and to what its station would have found out next: what was still
 * waiting when that ended is no difference.
 */
async function hashOfRegisterAt(
  place: string,
  keep: Keep,
  home: string,
  reader: MetadataReader,
): Promise<string | null> {
  let register: Register;
  try {
    register = await openRegister(place);
  } catch {
    return null;
  }
  try {
    if ((await register.appliedSeq()) === 0) return null;
    for await (const record of keep.records(await register.appliedSeq())) await register.apply(record);
    const clocks = await clocksOf(register);
    for await (const row of everyFrame(register)) {
      if (row.times.judgedMs === null) await findOut(register, row, home, reader, clocks).catch(() => {});
    }
    return await hashOfDump(register);
  } catch {
    return null;
  } finally {
    await register.close();
  }
}

/** SHA-256 over every row in a fixed order; counters of changes and the place in the journal do not count. */
async function hashOfDump(register: Register): Promise<string> {
  const { progress: _place, ...tables } = await register.dump();
  const text = JSON.stringify({ ...tables, found: await register.dumpFound() });
  return createHash('sha256').update(text).digest('hex');
}

async function removeRegister(path: string): Promise<void> {
  for (const suffix of ['', '-wal', '-shm', '-journal']) await rm(`${path}${suffix}`, { force: true });
}
