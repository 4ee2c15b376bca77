import type { Kysely, Updateable } from 'kysely';
import { sql } from 'kysely';
import { nameOf, needFrame, refreshFrame } from './frame-of-files.ts';
import type { RegisterRecord } from './records.ts';
import type { ArrivalRowState, ArrivalsTable, Tables } from './tables.ts';

type Of<Type extends RegisterRecord['type']> = Extract<RegisterRecord, { type: Type }>;
type ArrivalRecord = Of<
  | 'announced'
  | 'resumed'
  | 'broken-off'
  | 'kept'
  | 'again'
  | 'made-good'
  | 'let-go'
  | 'renamed'
  | 'hidden'
  | 'folded'
>;

/** Carries what became of a file on its way in into the tables. One that no record announced changes nothing. */
export async function applyArrivalRecord(db: Kysely<Tables>, record: ArrivalRecord): Promise<void> {
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
    case 'folded':
      return foldArrival(db, record);
  }
}

async function announce(db: Kysely<Tables>, record: Of<'announced'>): Promise<void> {
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

async function keep(db: Kysely<Tables>, record: Of<'kept'>): Promise<void> {
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
  { arrival, frame, name, sizeBytes, sha256 }: Of<'kept'>,
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

function stateOf(wholeness: Of<'kept'>['wholeness']): ArrivalRowState {
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
async function foldArrival(db: Kysely<Tables>, { arrival }: Of<'folded'>): Promise<void> {
  const row = await db.selectFrom('arrivals').select('state').where('id', '=', arrival).executeTakeFirst();
  if (row?.state === 'broken-off') await changeArrival(db, arrival, { state: 'folded' });
}

/** A renamed folder takes its files along. */
async function rename(db: Kysely<Tables>, record: Of<'renamed'>): Promise<void> {
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
