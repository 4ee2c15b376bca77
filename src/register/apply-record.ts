import type { Kysely, Updateable } from 'kysely';
import { sql } from 'kysely';
import { isXmpName, legibleName } from '../base/index.ts';
import { layoutSender } from '../job/index.ts';
import { applyFrameChoice, raiseVersion } from './apply-frame-choice.ts';
import { applyJobRecord, layAside, openJob, selectPlaceForArrival } from './apply-job-record.ts';
import { compiledOnce } from './compiled-once.ts';
import { placeFrame } from './frame-place.ts';
import { applyLookChoice } from './look-queries.ts';
import type { RegisterRecord, RegisterRecordBody } from './records.ts';
import { applyRemarkChoice } from './remark-queries.ts';
import type { ArrivalRowState, ArrivalsTable, Tables } from './tables.ts';

type Body<Type extends RegisterRecordBody['type']> = Extract<RegisterRecord, { type: Type }>;

/** Carries one record into the tables. A record about an arrival that no record announced changes nothing. */
export async function applyRecord(db: Kysely<Tables>, record: RegisterRecord): Promise<void> {
  switch (record.type) {
    case 'announced':
      return announce(db, record);
    case 'resumed':
      return changeArrival(db, record.arrival, { state: 'arriving', announced_size: record.announcedBytes });
    case 'broken-off':
      return changeArrival(db, record.arrival, {
        state: 'broken-off',
        size: record.sizeBytes,
        expected_size: record.expectedBytes,
        sha256: record.sha256,
        first_byte_ms: record.firstByteMs,
        last_byte_ms: record.lastByteMs,
      });
    case 'kept':
      return keep(db, record);
    case 'again':
    case 'made-good':
    case 'let-go':
      return changeArrival(db, record.arrival, { state: record.type });
    case 'renamed':
      return rename(db, record);
    case 'hidden':
      return changeArrival(db, record.arrival, { hidden: 1 });
    case 'copied':
      return noteCopy(db, record);
    case 'copy-lost':
      return forgetCopy(db, record);
    case 'folded':
      return foldArrival(db, record);
    case 'place-made':
      return notePlace(db, record);
    case 'mark-set':
    case 'shot-set':
    case 'shot-followed':
    case 'slate-heeded':
    case 'job-set':
    case 'purpose-set':
    case 'spot-set':
    case 'look-set':
    case 'share-set':
    case 'acceptance-set':
      return applyFrameChoice(db, record);
    case 'remark-made':
    case 'remark-answered':
    case 'remark-settled':
      return applyRemarkChoice(db, record);
    case 'job-described':
    case 'job-state-set':
    case 'job-tolerances-set':
    case 'job-grey-card-set':
    case 'job-hand-over-set':
    case 'job-colour-set':
    case 'job-targets-set':
    case 'job-scales-set':
    case 'job-last-numbers-set':
    case 'job-explained-set':
    case 'job-signed-set':
    case 'agreed':
    case 'agreement-withdrawn':
    case 'job-removed':
    case 'shot-stated':
    case 'shots-ordered':
    case 'shot-removed':
    case 'shot-current-set':
      return applyJobRecord(db, record);
    case 'look-saved':
    case 'look-aside-set':
      return applyLookChoice(db, record);
    case 'camera-set':
      return setCamera(db, record);
    case 'camera-clock-set':
      return noteClock(db, record);
    case 'job-opened':
      return openJob(db, record);
    case 'job-closed':
      return layAside(db, null);
    case 'opened':
    case 'synced':
    case 'settling':
    case 'folder-made':
    case 'folder-removed':
    case 'modified':
    case 'camera-added':
    case 'card-checked':
    case 'put-back':
      return;
  }
}

async function setCamera(db: Kysely<Tables>, { camera, expects, atMs }: Body<'camera-set'>): Promise<void> {
  await db
    .insertInto('cameras')
    .values({ name: camera, expects, said_ms: atMs })
    .onConflict((conflict) => conflict.column('name').doUpdateSet({ expects, said_ms: atMs }))
    .execute();
}

async function announce(db: Kysely<Tables>, record: Body<'announced'>): Promise<void> {
  await db
    .insertInto('arrivals')
    .values({
      id: record.arrival,
      frame: record.frame,
      camera: record.camera,
      view_path: record.path,
      name: nameOf(record.path),
      incoming: record.incoming,
      state: 'arriving',
      size: 0,
      expected_size: null,
      announced_size: record.announcedBytes,
      sha256: null,
      started_ms: record.atMs,
      first_byte_ms: null,
      last_byte_ms: null,
      hidden: 0,
    })
    .execute();
  await needFrame(db, record, record.atMs);
  await refreshFrame(db, record.frame);
}

/** The frame's row, made at its first file: it belongs to the shot that is current then. */
async function needFrame(
  db: Kysely<Tables>,
  of: { readonly frame: string; readonly job: string; readonly camera: string; readonly path: string },
  atMs: number,
): Promise<void> {
  await db
    .insertInto('frames')
    .values({
      id: of.frame,
      job: of.job,
      camera: of.camera,
      ...(of.camera === layoutSender
        ? { shot: null, shotless: null }
        : await selectPlaceForArrival(db, of.job, of.camera)),
      placed: 'arrival',
      slate: null,
      slate_ms: null,
      purpose: 'picture',
      spot: null,
      look: null,
      name: nameOf(of.path),
      order_ms: atMs,
      first_byte_ms: null,
      last_byte_ms: null,
      kept_ms: null,
      listed: 0,
      version: 0,
    })
    .onConflict((conflict) => conflict.column('id').doNothing())
    .execute();
}

async function keep(db: Kysely<Tables>, record: Body<'kept'>): Promise<void> {
  const { arrival, frame, sizeBytes: size, sha256, wholeness } = record;
  await needFrame(db, record, record.atMs);
  const before = await db.selectFrom('arrivals').select('frame').where('id', '=', arrival).executeTakeFirst();
  const file = { frame, path: record.original, size, sha256, wholeness };
  // A damaged journal may have lost that it was kept: then the next start keeps it once more, and it is no younger for that.
  await db
    .insertInto('files')
    .values({ arrival, kept_ms: record.atMs, ...file })
    .onConflict((conflict) => conflict.column('arrival').doUpdateSet(file))
    .execute();
  const ended = {
    frame,
    view_path: record.path,
    name: record.name,
    state: stateOf(wholeness),
    size,
    expected_size: record.expectedBytes,
    sha256,
    first_byte_ms: record.firstByteMs,
    last_byte_ms: record.lastByteMs,
  };
  // A damaged journal may have lost the announcement.
  await db
    .insertInto('arrivals')
    .values({
      id: arrival,
      camera: record.camera,
      incoming: arrival,
      announced_size: null,
      started_ms: record.atMs,
      hidden: 0,
      ...ended,
    })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(ended))
    .execute();
  await replaceStale(db, record);
  await refreshFrame(db, frame);
  // It turned out to be another picture than the one it was announced in, or takes the place of an original.
  if (before !== undefined && before.frame !== frame) await refreshFrame(db, before.frame);
}

/** The same bytes under the same name a second time in one frame: the first ones do not answer for them any more. */
async function replaceStale(
  db: Kysely<Tables>,
  { arrival, frame, name, sizeBytes, sha256 }: Body<'kept'>,
): Promise<void> {
  await db
    .updateTable('arrivals')
    .set({ state: 'replaced' })
    .where('frame', '=', frame)
    .where('id', '!=', arrival)
    .where('name', '=', name)
    .where('size', '=', sizeBytes)
    .where('sha256', '=', sha256)
    .where('state', 'in', ['whole', 'unproved', 'damaged'])
    .execute();
}

function stateOf(wholeness: Body<'kept'>['wholeness']): ArrivalRowState {
  return wholeness === 'unknown' ? 'unproved' : wholeness;
}

async function changeArrival(
  db: Kysely<Tables>,
  arrival: string,
  change: Updateable<ArrivalsTable>,
): Promise<void> {
  await db.updateTable('arrivals').set(change).where('id', '=', arrival).execute();
  const row = await db.selectFrom('arrivals').select('frame').where('id', '=', arrival).executeTakeFirst();
  if (row !== undefined) await refreshFrame(db, row.frame);
}

/** A broken-off file whose bytes a longer attempt holds too is listed no more; others were not before. */
async function foldArrival(db: Kysely<Tables>, { arrival }: Body<'folded'>): Promise<void> {
  const row = await db.selectFrom('arrivals').select('state').where('id', '=', arrival).executeTakeFirst();
  if (row?.state === 'broken-off') await changeArrival(db, arrival, { state: 'folded' });
}

/** A renamed folder takes its files along. */
async function rename(db: Kysely<Tables>, record: Body<'renamed'>): Promise<void> {
  const { camera, from, to, arrival } = record;
  if (arrival !== null) return changeArrival(db, arrival, { view_path: to, name: nameOf(to) });
  await db
    .updateTable('arrivals')
    .set({ view_path: sql<string>`${to} || substr(view_path, length(${from}) + 1)` })
    .where('camera', '=', camera)
    .where('view_path', '>=', `${from}/`)
    .where('view_path', '<', `${from}0`)
    .execute();
}

/** A file copied anew, to a place on another device now, say: the newest word stands. */
async function noteCopy(db: Kysely<Tables>, record: Body<'copied'>): Promise<void> {
  const { arrival, place, readBack, otherDevice, atMs } = record;
  const row = { read_back: readBack, other_device: otherDevice ? 1 : 0, copied_ms: atMs };
  await db
    .insertInto('copies')
    .values({ arrival, place, ...row })
    .onConflict((conflict) => conflict.columns(['arrival', 'place']).doUpdateSet(row))
    .execute();
  await raiseVersionOfFile(db, arrival);
}

async function forgetCopy(db: Kysely<Tables>, { arrival, place }: Body<'copy-lost'>): Promise<void> {
  await db.deleteFrom('copies').where('arrival', '=', arrival).where('place', '=', place).execute();
  await raiseVersionOfFile(db, arrival);
}

async function raiseVersionOfFile(db: Kysely<Tables>, arrival: string): Promise<void> {
  const file = await db.selectFrom('files').select('frame').where('arrival', '=', arrival).executeTakeFirst();
  if (file !== undefined) await raiseVersion(db, file.frame);
}

async function notePlace(db: Kysely<Tables>, { place: id, folder }: Body<'place-made'>): Promise<void> {
  await db
    .insertInto('places')
    .values({ id, folder })
    .onConflict((conflict) => conflict.column('id').doUpdateSet({ folder }))
    .execute();
}

async function noteClock(db: Kysely<Tables>, record: Body<'camera-clock-set'>): Promise<void> {
  const { seq, camera, offsetMs, sinceMs } = record;
  await db
    .insertInto('camera_clocks')
    .values({ seq, camera, offset_ms: offsetMs, since_ms: sinceMs })
    .execute();
}

/** States in which a frame shows a file. */
export const listedStates: readonly ArrivalRowState[] = [
  'arriving',
  'whole',
  'unproved',
  'broken-off',
  'damaged',
];

/** What a frame says of itself that its files decide. */
async function refreshFrame(db: Kysely<Tables>, frame: string): Promise<void> {
  const [of] = await cameraOf(db, frame);
  const arrivals = await listedArrivals(db, frame);
  const [kept] = await lastKept(db, frame);
  // Words about a picture may come before it: the frame has the picture's name.
  const first = arrivals.find(({ name }) => !isXmpName(name)) ?? arrivals[0];
  await db
    .updateTable('frames')
    .set((row) => ({
      ...(first === undefined ? {} : { name: first.name }),
      first_byte_ms: extreme(Math.min, arrivals, 'first_byte_ms'),
      last_byte_ms: extreme(Math.max, arrivals, 'last_byte_ms'),
      kept_ms: kept?.kept_ms ?? null,
      listed: of?.camera === layoutSender ? 0 : arrivals.length,
      version: row('version', '+', 1),
    }))
    .where('id', '=', frame)
    .execute();
  // What was found out before a rebuild decides too.
  await placeFrame(db, frame);
}

const cameraOf = compiledOnce((db, frame: string) =>
  db.selectFrom('frames').select('camera').where('id', '=', frame),
);
const listedArrivals = compiledOnce((db, frame: string) =>
  db
    .selectFrom('arrivals')
    .select(['name', 'first_byte_ms', 'last_byte_ms'])
    .where('frame', '=', frame)
    .where('state', 'in', [...listedStates])
    .orderBy('started_ms')
    .orderBy('id'),
);
const lastKept = compiledOnce((db, frame: string) =>
  db
    .selectFrom('files')
    .select((row) => row.fn.max('kept_ms').as('kept_ms'))
    .where('frame', '=', frame),
);

function extreme<Name extends string>(
  pick: (...values: number[]) => number,
  rows: readonly Readonly<Record<Name, number | null>>[],
  name: Name,
): number | null {
  const values = rows.map((row) => row[name]).filter((value) => value !== null);
  return values.length === 0 ? null : pick(...values);
}

function nameOf(path: string): string {
  return legibleName(path.slice(path.lastIndexOf('/') + 1));
}
