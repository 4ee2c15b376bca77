import type { Kysely } from 'kysely';
import { compiledOnce } from './compiled-once.ts';
import { listedStates } from './frame-of-files.ts';
import type { CopyRow, FileRow } from './rows.ts';
import type { Tables } from './tables.ts';

/** The shown files of one frame, oldest first. */
export async function selectFilesOfFrame(db: Kysely<Tables>, frame: string): Promise<readonly FileRow[]> {
  const byFrame = await withCopies(db, await arrivalsOfFrame(db, frame));
  return byFrame.get(frame) ?? [];
}

/** Asked for with each change of each frame, so these are built once. */
const arrivalsOfFrame = compiledOnce((db, id: string) => arrivalSelection(db, [id]));
const copiesOfArrival = compiledOnce((db, id: string) => copySelection(db, [id]));

/** The shown files of some frames, by frame, oldest first. */
export async function selectFiles(
  db: Kysely<Tables>,
  frames: readonly string[],
): Promise<Map<string, FileRow[]>> {
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
