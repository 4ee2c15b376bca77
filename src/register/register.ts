import type { Kysely } from 'kysely';
import { errorMessage, SetsideError } from '../base/index.ts';
import type { ReadingDetail, ShareBox } from '../facts/index.ts';
import type { ShotWord } from '../job/index.ts';
import { applyRecord } from './apply-record.ts';
import { selectBriefPage } from './brief-queries.ts';
import { selectCameras } from './camera-queries.ts';
import { compiledOnce } from './compiled-once.ts';
import { openDatabase } from './database.ts';
import { type RegisterDialect, sqlite } from './dialects.ts';
import { upsertFrameFacts } from './frame-facts.ts';
import { FrameMemo } from './frame-memo.ts';
import { selectFrame, selectFrameOfOriginal, selectFramesPage } from './frame-queries.ts';
import { countFrames, selectJobs } from './job-queries.ts';
import { type LitFrameRow, type LitFramesQuery, selectLitFrame, selectLitFrames } from './light-queries.ts';
import { selectLooks } from './look-queries.ts';
import { selectReadingDetail } from './reading-queries.ts';
import { RecordQueue } from './record-queue.ts';
import type { RegisterRecord } from './records.ts';
import type {
  BriefFramesPage,
  CameraRow,
  FrameFacts,
  FrameRow,
  FramesPage,
  FramesQuery,
  JobRow,
  LookRow,
} from './rows.ts';
import { selectSlates } from './slate-queries.ts';
import { type PlaceInShot, selectSpotOnward } from './spot-queries.ts';
import { derivedTables, type Tables } from './tables.ts';

export interface Register {
  /**
   * Carries a durable record of the journal into the tables. Call it for each record, in order; records that wait share
   * one transaction. A record that the tables know already is passed over. Once one could not be written (a full disk,
   * say), all are rejected until {@link takeUpAgain}.
   */
  apply(record: RegisterRecord): Promise<void>;
  /** After a failure: takes records again. The caller goes on from `appliedSeq`, so that none is passed over. */
  takeUpAgain(): void;
  /** `seq` of the last record in the tables, 0 for none: where to go on from after a start. */
  appliedSeq(): Promise<number>;
  /** A frame, also one that is void; null where there is none. */
  frame(id: string): Promise<FrameRow | null>;
  /** Rejects `bad-cursor`, `bad-limit`. */
  framesPage(query: FramesQuery): Promise<FramesPage>;
  /** The same frames without what was read, said and seen of them: for who looks through a whole job. Rejects alike. */
  briefPage(query: FramesQuery): Promise<BriefFramesPage>;
  /** Maps and histograms of a frame's readings, or null. */
  readingDetail(frame: string): Promise<ReadingDetail | null>;
  /** The last frames of a shot by one camera whose light was read, oldest first. */
  litFrames(query: LitFramesQuery): Promise<readonly LitFrameRow[]>;
  /** A frame whose light was read, or null. */
  litFrame(id: string): Promise<LitFrameRow | null>;
  /** The spot that was pointed out last for a shot from there on, up to this frame; null for none. */
  spotOnward(frame: PlaceInShot): Promise<ShareBox | null>;
  /** Every job, the newest opened first. */
  jobs(): Promise<readonly JobRow[]>;
  /** Every saved version of a look, the oldest first. */
  looks(): Promise<readonly LookRow[]>;
  /** How many frames show something, of a job or of one shot of it. */
  countFrames(job: string, shot?: string): Promise<number>;
  /** The slates and grey cards in force of a job, each with its frame's place in the order of the shutter. */
  slates(job: string): Promise<readonly ShotWord[]>;
  /** The frame of a sender in a job that holds an original of this hash, or null. */
  frameOfOriginal(job: string, camera: string, sha256: string): Promise<string | null>;
  /** What was said of cameras, by name. */
  cameras(): Promise<readonly CameraRow[]>;
  /** Notes what was found out about a frame; fields left out stay. */
  upsertFacts(frame: string, facts: Partial<FrameFacts>): Promise<void>;
  /** Empties what the journal decides; `rebuildRegister` fills it again. Facts about frames stay. */
  clear(): Promise<void>;
  /** Every row of the tables that the journal decides, in a fixed order: what two equal registers have equal. */
  dump(): Promise<Readonly<Record<string, readonly unknown[]>>>;
  /** What was found out from the files themselves, by frame that is listed: kind, shutter time, what the camera said. */
  dumpFound(): Promise<readonly unknown[]>;
  close(): Promise<void>;
}

/**
 * Opens the register at an address (for SQLite a path), makes or migrates its tables. Rejects `register-unusable`, `register-newer`.
 */
export async function openRegister(address: string, dialect: RegisterDialect = sqlite): Promise<Register> {
  try {
    return registerOn(await openDatabase(address, dialect));
  } catch (cause) {
    if (cause instanceof SetsideError) throw cause;
    throw new SetsideError('register-unusable', `the register at ${address}: ${errorMessage(cause)}`, {
      cause,
      cure: 'Take the file away: it is rebuilt from the journal at the next start.',
    });
  }
}

/** Makes the tables anew from the whole journal. What was found out about frames stays where it is known. */
export async function rebuildRegister(
  register: Register,
  records: Iterable<RegisterRecord> | AsyncIterable<RegisterRecord>,
): Promise<void> {
  await register.clear();
  let applied: Promise<void>[] = [];
  for await (const record of records) {
    applied.push(register.apply(record));
    if (applied.length < rebuildBatchRecords) continue;
    await Promise.all(applied);
    applied = [];
  }
  await Promise.all(applied);
}

/** Records of one transaction while rebuilding: enough that the commits do not count, few enough to hold. */
const rebuildBatchRecords = 1000;

function registerOn(db: Kysely<Tables>): Register {
  const frames = new FrameMemo((id) => selectFrame(db, id));
  const queue = new RecordQueue((records) => frames.write(() => applyAll(db, records)));
  return {
    apply: (record) => queue.add(record),
    takeUpAgain: () => queue.takeUpAgain(),
    appliedSeq: () => appliedSeq(db),
    frame: (id) => frames.get(id),
    framesPage: (query) => selectFramesPage(db, query),
    briefPage: (query) => selectBriefPage(db, query),
    readingDetail: (frame) => selectReadingDetail(db, frame),
    litFrames: (query) => selectLitFrames(db, query),
    litFrame: (id) => selectLitFrame(db, id),
    spotOnward: (frame) => selectSpotOnward(db, frame),
    jobs: () => selectJobs(db),
    looks: () => selectLooks(db),
    countFrames: (job, shot) => countFrames(db, job, shot),
    slates: (job) => selectSlates(db, job),
    frameOfOriginal: (job, camera, sha256) => selectFrameOfOriginal(db, job, camera, sha256),
    cameras: () => selectCameras(db),
    upsertFacts: (frame, facts) => frames.write(() => upsertFrameFacts(db, frame, facts)),
    clear: () => frames.write(() => clear(db)),
    dump: () => dump(db),
    dumpFound: () =>
      db
        .selectFrom('frame_facts')
        .select(['frame', 'kind', 'shutter_ms', 'capture'])
        .where('frame', 'in', db.selectFrom('frames').select('id').where('listed', '=', 1))
        .orderBy('frame')
        .execute(),
    close: async () => {
      await queue.idle();
      await db.destroy();
    },
  };
}

async function appliedSeq(db: Kysely<Tables>): Promise<number> {
  const [row] = await selectApplied(db);
  return row?.applied_seq ?? 0;
}

const selectApplied = compiledOnce((db) => db.selectFrom('progress').select('applied_seq'));

const noteApplied = compiledOnce((db, applied: number) =>
  db
    .insertInto('progress')
    .values({ id: 1, applied_seq: applied })
    .onConflict((conflict) => conflict.column('id').doUpdateSet({ applied_seq: applied })),
);

async function applyAll(db: Kysely<Tables>, records: readonly RegisterRecord[]): Promise<void> {
  await db.transaction().execute(async (transaction) => {
    let applied = await appliedSeq(transaction);
    for (const record of records) {
      if (record.seq <= applied) continue;
      await applyRecord(transaction, record);
      applied = record.seq;
    }
    await noteApplied(transaction, applied);
  });
}

async function clear(db: Kysely<Tables>): Promise<void> {
  await db.transaction().execute(async (transaction) => {
    for (const table of derivedTables) await transaction.deleteFrom(table).execute();
  });
}

async function dump(db: Kysely<Tables>): Promise<Record<string, readonly unknown[]>> {
  const frames = await db.selectFrom('frames').selectAll().orderBy('id').execute();
  return {
    // A frame that turned out to be another one has no place in time: whether its bytes were looked into before that was
    // known is chance.
    frames: frames.map((frame) => (frame.listed === 1 ? frame : { ...frame, order_ms: 0 })),
    arrivals: await db.selectFrom('arrivals').selectAll().orderBy('id').execute(),
    files: await db.selectFrom('files').selectAll().orderBy('arrival').execute(),
    copies: await db.selectFrom('copies').selectAll().orderBy('arrival').orderBy('place').execute(),
    places: await db.selectFrom('places').selectAll().orderBy('id').execute(),
    marks: await db.selectFrom('marks').selectAll().orderBy('frame').execute(),
    remarks: await db.selectFrom('remarks').selectAll().orderBy('frame').orderBy('id').execute(),
    acceptances: await db
      .selectFrom('acceptances')
      .selectAll()
      .orderBy('frame')
      .orderBy('question')
      .execute(),
    // How often an earlier version's jobs were changed, a migration cannot tell.
    jobs: (await db.selectFrom('jobs').selectAll().orderBy('code').execute()).map((job) => ({
      ...job,
      version: 0,
    })),
    shots: await db.selectFrom('shots').selectAll().orderBy('job').orderBy('place').orderBy('id').execute(),
    cameras: await db.selectFrom('cameras').selectAll().orderBy('name').execute(),
    looks: await db.selectFrom('looks').selectAll().orderBy('id').execute(),
    cameraClocks: await db.selectFrom('camera_clocks').selectAll().orderBy('seq').execute(),
    progress: await db.selectFrom('progress').selectAll().execute(),
  };
}
