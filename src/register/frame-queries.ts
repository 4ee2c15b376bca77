import type { Kysely } from 'kysely';
import { selectAcceptances, selectAcceptancesOfFrame } from './acceptance-queries.ts';
import { compiledOnce } from './compiled-once.ts';
import { formatCursor } from './cursor.ts';
import { selectFiles, selectFilesOfFrame } from './file-queries.ts';
import { asksFor, assertLimit, frameOrder } from './frame-conditions.ts';
import { type FrameSelection, frameRow, frameSelection } from './frame-row.ts';
import { selectRemarks } from './remark-queries.ts';
import type { FrameRow, FramesPage, FramesQuery } from './rows.ts';
import type { Tables } from './tables.ts';

/** One frame with its files, or null. */
export async function selectFrame(db: Kysely<Tables>, id: string): Promise<FrameRow | null> {
  const [row] = await frameById(db, id);
  if (row === undefined) return null;
  const files = await selectFilesOfFrame(db, id);
  const accepted = await selectAcceptancesOfFrame(db, id);
  const remarks = await selectRemarks(db, [id]);
  return frameRow(row, files, accepted, remarks.get(id) ?? []);
}

/** Asked for with each change of each frame, so it is built once. */
const frameById = compiledOnce((db, id: string) => frameSelection(db).where('frames.id', '=', id));

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
