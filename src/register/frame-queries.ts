import type { Kysely } from 'kysely';
import {
  type CaptureFacts,
  type FocusSpot,
  frameShares,
  judgements,
  type KeptReadings,
  type Mark,
  marks,
  type Purpose,
  purposes,
  questions,
  type ReadingDetail,
  type Remark,
  readingsEdition,
  shotlessAtArrival,
} from '../facts/index.ts';
import { type HeededSlate, type PlacedBy, placers } from '../job/index.ts';
import { listedStates } from './apply-record.ts';
import { compiledOnce } from './compiled-once.ts';
import { formatCursor } from './cursor.ts';
import { asksFor, assertLimit, frameOrder } from './frame-conditions.ts';
import { selectRemarks } from './remark-queries.ts';
import type {
  AcceptanceRow,
  CopyRow,
  FileRow,
  FrameRow,
  FramesPage,
  FramesQuery,
  JsonObject,
  SeenInPicture,
} from './rows.ts';
import type { Tables } from './tables.ts';

/** One frame with its files, or null. */
export async function selectFrame(db: Kysely<Tables>, id: string): Promise<FrameRow | null> {
  const [row] = await frameById(db, id);
  if (row === undefined) return null;
  const files = await withCopies(db, await arrivalsOfFrame(db, id));
  const accepted = acceptancesByFrame(await acceptancesOfFrame(db, id));
  const remarks = await selectRemarks(db, [id]);
  return frameRow(row, files.get(id) ?? [], accepted.get(id) ?? [], remarks.get(id) ?? []);
}

/** Asked for with each change of each frame, so these are built once. */
const frameById = compiledOnce((db, id: string) => frameSelection(db).where('frames.id', '=', id));
const arrivalsOfFrame = compiledOnce((db, id: string) => arrivalSelection(db, [id]));
const acceptancesOfFrame = compiledOnce((db, id: string) => acceptanceSelection(db, [id]));
const copiesOfArrival = compiledOnce((db, id: string) => copySelection(db, [id]));

/** The first frame of a sender in a job that holds an original of this hash, or null. */
export async function selectFrameOfOriginal(
  db: Kysely<Tables>,
  job: string,
  camera: string,
  sha256: string,
): Promise<string | null> {
  const row = await db
    .selectFrom('files')
    .innerJoin('frames', 'frames.id', 'files.frame')
    .select('frames.id')
    .where('files.sha256', '=', sha256)
    .where('frames.camera', '=', camera)
    .where('frames.job', '=', job)
    .orderBy('files.kept_ms')
    .executeTakeFirst();
  return row?.id ?? null;
}

/**
 * Frames with something to show, in the order of the shutter, from a cursor on. Rejects `bad-cursor`, `bad-limit`.
 */
export async function selectFramesPage(db: Kysely<Tables>, query: FramesQuery): Promise<FramesPage> {
  const { limit } = query;
  assertLimit(limit);
  const rows = await framesPageQuery(db, query).execute();
  const shown = rows.slice(0, limit);
  const ids = shown.map((row) => row.id);
  const files = await selectFiles(db, ids);
  const accepted = await selectAcceptances(db, ids);
  const remarks = await selectRemarks(db, ids);
  const last = shown.at(-1);
  return {
    frames: shown.map((row) =>
      frameRow(row, files.get(row.id) ?? [], accepted.get(row.id) ?? [], remarks.get(row.id) ?? []),
    ),
    next:
      rows.length > limit && last !== undefined
        ? formatCursor({ orderMs: last.order_ms, id: last.id })
        : null,
  };
}

/** One row more than asked for tells whether there is a next page. */
export function framesPageQuery(db: Kysely<Tables>, query: FramesQuery): FrameSelection {
  const [order, id] = frameOrder(query);
  return frameSelection(db)
    .where('frames.listed', '>', 0)
    .where(({ eb }) => asksFor(eb, query))
    .orderBy('frames.order_ms', order)
    .orderBy('frames.id', id)
    .limit(query.limit + 1);
}

type FrameSelection = ReturnType<typeof frameSelection>;
type SelectedFrame = Awaited<ReturnType<FrameSelection['execute']>>[number];

function frameSelection(db: Kysely<Tables>) {
  return db
    .selectFrom('frames')
    .leftJoin('frame_facts', 'frame_facts.frame', 'frames.id')
    .leftJoin('marks', 'marks.frame', 'frames.id')
    .select((row) =>
      row
        .selectFrom('arrivals')
        .select((of) => of.fn.min('arrivals.started_ms').as('began_ms'))
        .whereRef('arrivals.frame', '=', 'frames.id')
        .as('began_ms'),
    )
    .select([
      'frames.id',
      'frames.job',
      'frames.shot',
      'frames.purpose',
      'frames.spot',
      'frames.look',
      'frames.share',
      'frames.placed',
      'frames.shotless',
      'frames.slate',
      'frames.camera',
      'frames.name',
      'frames.order_ms',
      'frames.first_byte_ms',
      'frames.last_byte_ms',
      'frames.kept_ms',
      'frames.version',
      'frame_facts.kind',
      'frame_facts.shutter_ms',
      'frame_facts.first_view_ms',
      'frame_facts.rendered_ms',
      'frame_facts.judged_ms',
      'frame_facts.capture',
      'frame_facts.picture',
      'frame_facts.seen',
      'frame_facts.readings',
      'frame_facts.version as facts_version',
      'marks.mark',
      'marks.set_ms as marked_ms',
    ]);
}

/** The shown files of some frames, by frame, oldest first. */
async function selectFiles(db: Kysely<Tables>, frames: readonly string[]): Promise<Map<string, FileRow[]>> {
  return frames.length === 0 ? new Map() : withCopies(db, await arrivalSelection(db, frames).execute());
}

function arrivalSelection(db: Kysely<Tables>, frames: readonly string[]) {
  return db
    .selectFrom('arrivals')
    .leftJoin('files', 'files.arrival', 'arrivals.id')
    .selectAll('arrivals')
    .select(['files.path', 'files.kept_ms'])
    .where('arrivals.frame', 'in', [...frames])
    .where('arrivals.state', 'in', [...listedStates])
    .orderBy('arrivals.started_ms')
    .orderBy('arrivals.id');
}

type SelectedArrival = Awaited<ReturnType<ReturnType<typeof arrivalSelection>['execute']>>[number];

async function withCopies(
  db: Kysely<Tables>,
  rows: readonly SelectedArrival[],
): Promise<Map<string, FileRow[]>> {
  const byFrame = new Map<string, FileRow[]>();
  const copies = await selectCopies(
    db,
    rows.filter(({ path }) => path !== null).map(({ id }) => id),
  );
  for (const row of rows) {
    const of = byFrame.get(row.frame) ?? [];
    byFrame.set(row.frame, of);
    of.push({
      arrival: row.id,
      name: row.name,
      viewPath: row.view_path,
      path: row.path,
      incoming: row.incoming,
      sizeBytes: row.size,
      expectedBytes: row.expected_size,
      announcedBytes: row.announced_size,
      sha256: row.sha256,
      state: row.state,
      hidden: row.hidden === 1,
      firstByteMs: row.first_byte_ms,
      keptMs: row.kept_ms,
      copies: copies.get(row.id) ?? [],
    });
  }
  return byFrame;
}

/** The copies of some originals, by arrival. */
async function selectCopies(
  db: Kysely<Tables>,
  arrivals: readonly string[],
): Promise<Map<string, CopyRow[]>> {
  const byArrival = new Map<string, CopyRow[]>();
  const [first, second] = arrivals;
  if (first === undefined) return byArrival;
  const rows =
    second === undefined ? await copiesOfArrival(db, first) : await copySelection(db, arrivals).execute();
  for (const row of rows) {
    const of = byArrival.get(row.arrival) ?? [];
    of.push({
      place: row.place,
      folder: row.folder ?? '',
      readBack: row.read_back === 'direct' ? 'direct' : 'cached',
      otherDevice: row.other_device === 1,
      copiedMs: row.copied_ms,
    });
    byArrival.set(row.arrival, of);
  }
  return byArrival;
}

function copySelection(db: Kysely<Tables>, arrivals: readonly string[]) {
  return db
    .selectFrom('copies')
    .leftJoin('places', 'places.id', 'copies.place')
    .selectAll('copies')
    .select('places.folder')
    .where('copies.arrival', 'in', [...arrivals])
    .orderBy('copies.copied_ms')
    .orderBy('copies.place');
}

/** What was accepted of some frames, by frame, in the order of the questions. */
async function selectAcceptances(
  db: Kysely<Tables>,
  frames: readonly string[],
): Promise<Map<string, AcceptanceRow[]>> {
  return frames.length === 0
    ? new Map()
    : acceptancesByFrame(await acceptanceSelection(db, frames).execute());
}

function acceptanceSelection(db: Kysely<Tables>, frames: readonly string[]) {
  return db
    .selectFrom('acceptances')
    .selectAll()
    .where('frame', 'in', [...frames]);
}

function acceptancesByFrame(
  rows: readonly Awaited<ReturnType<ReturnType<typeof acceptanceSelection>['execute']>>[number][],
): Map<string, AcceptanceRow[]> {
  const byFrame = new Map<string, AcceptanceRow[]>();
  for (const question of questions) {
    for (const row of rows) {
      const judgement = judgements.find((known) => known === row.judgement);
      if (row.question !== question || judgement === undefined || judgement === 'good') continue;
      const { name, reason, set_ms: atMs } = row;
      byFrame.set(row.frame, [
        ...(byFrame.get(row.frame) ?? []),
        { question, judgement, name, reason, atMs },
      ]);
    }
  }
  return byFrame;
}

function frameRow(
  row: SelectedFrame,
  files: readonly FileRow[],
  acceptances: readonly AcceptanceRow[],
  remarks: readonly Remark[],
): FrameRow {
  return {
    id: row.id,
    job: row.job,
    shot: row.shot,
    camera: row.camera,
    name: row.name,
    kind: row.kind,
    shutterMs: row.shutter_ms,
    orderMs: row.order_ms,
    times: {
      beganMs: row.began_ms,
      firstByteMs: row.first_byte_ms,
      firstViewMs: row.first_view_ms,
      lastByteMs: row.last_byte_ms,
      keptMs: row.kept_ms,
      renderedMs: row.rendered_ms,
      judgedMs: row.judged_ms,
    },
    // Written by upsertFacts from these very types, in this database, by this program.
    capture: row.capture === null ? null : (JSON.parse(row.capture) as CaptureFacts),
    picture: row.picture === null ? null : (JSON.parse(row.picture) as JsonObject),
    marked: row.mark !== null,
    markedMs: row.marked_ms,
    placedBy: placers.find((placer): placer is PlacedBy => placer === row.placed) ?? 'arrival',
    shotless: shotlessAtArrival.find((reason) => reason === row.shotless) ?? null,
    // Written by applyFrameChoice and upsertFacts from these very types, as above.
    look: row.look,
    spot: row.spot === null ? null : (JSON.parse(row.spot) as FocusSpot),
    slate: row.slate === null ? null : (JSON.parse(row.slate) as HeededSlate),
    seen: row.seen === null ? null : (JSON.parse(row.seen) as SeenInPicture),
    readings: keptReadings(row.readings),
    mark: marks.find((mark): mark is Mark => mark === row.mark) ?? 'none',
    purpose: purposes.find((purpose): purpose is Purpose => purpose === row.purpose) ?? 'picture',
    share: frameShares.find((share) => share === row.share) ?? null,
    acceptances,
    remarks,
    files,
    version: row.version + (row.facts_version ?? 0),
  };
}

/** The large part of a frame's readings, or null. */
export async function selectReadingDetail(db: Kysely<Tables>, frame: string): Promise<ReadingDetail | null> {
  const row = await db
    .selectFrom('frame_facts')
    .select(['readings', 'reading_detail'])
    .where('frame', '=', frame)
    .executeTakeFirst();
  if (row?.reading_detail == null || keptReadings(row.readings) === null) return null;
  return JSON.parse(row.reading_detail) as ReadingDetail;
}

/** Written by upsertFacts from this very type; an earlier edition's figures mean something else. */
export function keptReadings(text: string | null): KeptReadings | null {
  if (text === null) return null;
  const readings = JSON.parse(text) as KeptReadings;
  return readings.edition === readingsEdition ? readings : null;
}
