import type { EpochMs } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import type { Inspect, KeptFolder } from './arrival-shapes.ts';
import { type BrokenOffFile, brokenOffFiles, letGo } from './broken-off-files.ts';
import type { KeepContext } from './context.ts';
import type { KeptFile, Via } from './core/arrival-records.ts';
import type { CardChecked } from './core/card-records.ts';
import type { Chosen } from './core/choice-records.ts';
import type { ChosenEntry } from './core/chosen-lately.ts';
import type { Copied, CopyLost, PlaceMade, PutBack } from './core/copy-records.ts';
import { eventOf, type KeepEvent } from './core/keep-event.ts';
import type { KeepState } from './core/keep-state.ts';
import type { JournalRecord, Stamp } from './core/records.ts';
import type { Disk, DiskSpace } from './disk.ts';
import { type FoldReport, foldDoubles } from './fold.ts';
import { openHashing } from './hashing.ts';
import { HomeFolders } from './home-folders.ts';
import { heldInIncoming, type IncomingHeld } from './incoming-held.ts';
import { Journal } from './journal.ts';
import { readJournal } from './journal-reader.ts';
import { JournalledFolder } from './journalled-folder.ts';
import { type Leftover, listLeftovers } from './leftovers.ts';
import { defaultKeepLimits, type KeepLimits } from './limits.ts';
import { nodeDisk } from './node-disk.ts';
import { ParkedHashes } from './parked-hashes.ts';
import { recover } from './recovery.ts';
import { replayHome, troublesOf } from './replay-home.ts';
import { SyncLanes } from './sync-lanes.ts';
import { Tellers } from './tellers.ts';
import { Turnstile } from './turnstile.ts';

export interface KeepOptions {
  /** The home's folder, absolute; made where it is missing. */
  readonly home: string;
  /** Default: the disk of this computer. */
  readonly disk?: Disk;
  readonly inspect: Inspect;
  /** A new id each time, unique in the home: 1 to 64 of `A-Z a-z 0-9 _ -`. */
  readonly newId: () => string;
  readonly now: () => EpochMs;
  /** Code of the job that a camera's next file belongs to; the tray's while none is open. */
  readonly jobOf: (camera: string) => string;
  /** New files are refused while less than this is free; room for the journal and for what has begun. */
  readonly diskFloorBytes: number;
  /** What differs from {@link defaultKeepLimits}. */
  readonly limits?: Partial<KeepLimits>;
  /** Threads that hash; 0 hashes in line. */
  readonly hashWorkers: number;
}

export interface Keep {
  /** A camera's folder, the same one each time. */
  folderOf(camera: string): KeptFolder;
  /** Hears of every file from now on. Call what it gives back to hear no more. */
  on(listener: (event: KeepEvent) => void): () => void;
  /** Hears every record from now on, in order, after it is durable. */
  onRecord(listener: (record: JournalRecord) => void): () => void;
  /**
   * Journals what a person decided or a second place achieved; settles when it is durable and told. Rejects `bad-record`,
   * `disk-full`, `disk-failed`.
   */
  append(record: Chosen | PlaceMade | Copied | CardChecked | PutBack): Promise<JournalRecord>;
  /** The same for what was decided or found in one go: written in one group, in its order. */
  appendTogether(records: readonly (Chosen | CopyLost)[]): Promise<readonly JournalRecord[]>;
  /** What people chose and said lately, as far as the journal says who: the oldest first. */
  chosenLately(): readonly ChosenEntry[];
  /** Every durable record after `afterSeq` (default 0: all), in order, as of now. */
  records(afterSeq?: number): AsyncIterable<JournalRecord>;
  /** Files that broke off and are waited for, oldest first. */
  brokenOff(): readonly BrokenOffFile[];
  /** A person waits for it no longer. Its bytes stay. Rejects `not-broken-off`. */
  letGo(arrival: string): Promise<void>;
  /**
   * Gives the room back that attempts take in `incoming/` whose bytes another file is proved to hold. Nothing else is
   * touched. One pass at a time; settles, whatever the disk does. A pass ends after so many bytes of attempts (default:
   * 256 MiB), the last attempt to its end.
   */
  foldDoubles(bytesAtOnceMax?: number): Promise<FoldReport>;
  /** How much lies in `incoming/`, and why. */
  heldInIncoming(): Promise<readonly IncomingHeld[]>;
  /** Files that no frame shows. Reads every folder of the home. */
  leftovers(): Promise<readonly Leftover[]>;
  /** Second places that were ever in use, by id, with the folder each was known by. */
  places(): ReadonlyMap<string, string>;
  /** Whether anything was ever copied there. */
  hasCopies(place: string): boolean;
  /** What is kept and not yet in that second place, oldest first. */
  keptWithoutCopy(place: string): readonly KeptFile[];
  /** What should be in that second place by the journal, oldest first. */
  copiesIn(place: string): readonly KeptFile[];
  /** One original; null where nothing is kept under this arrival, or was and has been replaced. */
  keptFile(arrival: string): KeptFile | null;
  /** What the newest checks of cards proved, oldest first. */
  cardChecks(): readonly (CardChecked & Stamp)[];
  /** By which door an arrival came, the last time it went on; null where there is none such. */
  cameBy(arrival: string): Via | null;
  /** What replay could not read or make sense of: `keep.*` findings. */
  readonly troubles: readonly Finding[];
  free(): Promise<DiskSpace>;
  /** Ends the hash workers, the journal and the claim on the home. Finish the arrivals first. */
  close(): Promise<void>;
}

/**
 * Opens a home: claims it, replays its journal, and brings what was under way to rest. When it settles, everything
 * that was ever acknowledged is in the camera's folders again.
 * Rejects `home-in-use`, `journal-newer`, and what the disk rejects.
 */
export async function openKeep(options: KeepOptions): Promise<Keep> {
  const disk = options.disk ?? nodeDisk();
  const folders = new HomeFolders(disk, options.home);
  await folders.make(options.home);
  const unlock = await disk.lock(options.home);
  try {
    return await openLocked(options, disk, folders, unlock);
  } catch (cause) {
    unlock();
    throw cause;
  }
}

async function openLocked(
  options: KeepOptions,
  disk: Disk,
  folders: HomeFolders,
  unlock: () => void,
): Promise<Keep> {
  await folders.makeAll();
  const replayed = await replayHome(disk, folders);
  const { state, end } = replayed;
  const events = new Tellers<KeepEvent>();
  const records = new Tellers<JournalRecord>();
  let lastSeq = end.nextSeq - 1;
  const journal = await Journal.open(disk, folders.journal, end, options.now, (record) => {
    lastSeq = record.seq;
    state.apply(record);
    records.tell(record);
    const event = eventOf(record, state, folders);
    if (event !== null) events.tell(event);
  });
  const { inspect, newId, now, jobOf, diskFloorBytes } = options;
  const hashing = openHashing(disk, options.hashWorkers);
  const tell = (event: KeepEvent): void => events.tell(event);
  const context: KeepContext = {
    disk,
    folders,
    journal,
    state,
    hashing,
    parkedHashes: new ParkedHashes(),
    syncLanes: new SyncLanes(),
    inspect,
    newId,
    now,
    jobOf,
    diskFloorBytes,
    limits: { ...defaultKeepLimits, ...options.limits },
    tell,
    unproved: new Set(),
    live: new Map(),
  };
  try {
    const bootId = await disk.bootId();
    await journal.append({ type: 'opened', bootId });
    await recover(context, bootId !== null && bootId === replayed.bootId);
  } catch (cause) {
    await Promise.allSettled([journal.close(), hashing.close()]);
    throw cause;
  }
  const cameras = new Map<string, JournalledFolder>();
  const folding = new Turnstile();
  let isClosing = false;
  return {
    folderOf: (camera) => {
      const folder = cameras.get(camera) ?? new JournalledFolder(context, camera);
      cameras.set(camera, folder);
      return folder;
    },
    on: (listener) => events.add(listener),
    onRecord: (listener) => records.add(listener),
    append: async (record) => {
      const written = onlyRecord(await journal.append(record));
      // Whoever follows the records knows of it before whoever asked for it goes on.
      records.flush();
      return written;
    },
    appendTogether: async (bodies) => {
      if (bodies.length === 0) return [];
      const written = await journal.append(...bodies);
      records.flush();
      return written;
    },
    records: (afterSeq = 0) => recordsBetween(disk, folders.journal, afterSeq, lastSeq),
    brokenOff: () => brokenOffFiles(context),
    letGo: (arrival) => letGo(context, arrival),
    foldDoubles: (bytesAtOnceMax) =>
      folding.pass(() => foldDoubles(context, () => isClosing, bytesAtOnceMax)),
    heldInIncoming: () => heldInIncoming(disk, folders.incomingFolder, state),
    leftovers: () => listLeftovers(context),
    places: () => state.places,
    hasCopies: (place) => state.usedPlaces.has(place),
    keptWithoutCopy: (place) => state.keptWithoutCopy(place),
    copiesIn: (place) => state.copiesIn(place),
    keptFile: (arrival) => keptFileOf(state, arrival),
    chosenLately: () => state.chosenLately.entries(),
    cardChecks: () => state.cardChecks,
    cameBy: (arrival) => state.arrivals.get(arrival)?.via ?? null,
    troubles: troublesOf(replayed),
    free: () => disk.free(options.home),
    close: async () => {
      isClosing = true;
      await Promise.allSettled([journal.close(), hashing.close()]);
      await folding.pass(async () => {});
      records.flush();
      events.flush();
      unlock();
    },
  };
}

async function* recordsBetween(
  disk: Disk,
  folder: string,
  afterSeq: number,
  lastSeq: number,
): AsyncGenerator<JournalRecord> {
  for await (const batch of readJournal(disk, folder)) {
    yield* batch.filter((record) => record.seq > afterSeq && record.seq <= lastSeq);
  }
}

function keptFileOf(state: KeepState, arrival: string): KeptFile | null {
  const known = state.arrivals.get(arrival);
  return known?.phase.kind === 'kept' && known.replacedBy === null ? known.phase.file : null;
}

function onlyRecord(records: readonly JournalRecord[]): JournalRecord {
  const [record] = records;
  if (record === undefined) throw new Error('one body appended gives one record');
  return record;
}
