import type { Kysely } from 'kysely';
import { type Mark, marks, type Purpose, purposes } from '../facts/index.ts';
import { formatCursor } from './cursor.ts';
import { asksFor, assertLimit, frameOrder } from './frame-conditions.ts';
import { listedStates } from './frame-of-files.ts';
import type { BriefFile, BriefFrame, BriefFramesPage, FramesQuery } from './rows.ts';
import type { Tables } from './tables.ts';

/**
 * Frames as {@link selectFramesPage} gives them, without what was read, said and seen of them: that is most of a row, and each
 * part is parsed. Rejects `bad-cursor`, `bad-limit`.
 */
export async function selectBriefPage(db: Kysely<Tables>, query: FramesQuery): Promise<BriefFramesPage> {
  const { limit } = query;
  assertLimit(limit);
  const rows = await briefPageQuery(db, query).execute();
  const shown = rows.slice(0, limit);
  const files = await filesOf(
    db,
    shown.map(({ id }) => id),
  );
  const last = shown.at(-1);
  return {
    frames: shown.map((row): BriefFrame => {
      const { id, job, shot, camera, name, order_ms: orderMs, first_byte_ms: firstByteMs } = row;
      return {
        ...{ id, job, shot, camera, name, orderMs, firstByteMs },
        mark: marks.find((mark): mark is Mark => mark === row.mark) ?? 'none',
        purpose: purposes.find((purpose): purpose is Purpose => purpose === row.purpose) ?? 'picture',
        files: files.get(id) ?? [],
      };
    }),
    next:
      rows.length > limit && last !== undefined
        ? formatCursor({ orderMs: last.order_ms, id: last.id })
        : null,
  };
}

/** One row more than asked for tells whether there is a next page. */
export function briefPageQuery(db: Kysely<Tables>, query: FramesQuery) {
  const [order, id] = frameOrder(query);
  return db
    .selectFrom('frames')
    .leftJoin('marks', 'marks.frame', 'frames.id')
    .select([
      'frames.id',
      'frames.job',
      'frames.shot',
      'frames.camera',
      'frames.name',
      'frames.order_ms',
      'frames.first_byte_ms',
      'frames.purpose',
      'marks.mark',
    ])
    .where('frames.listed', '>', 0)
    .where(({ eb }) => asksFor(eb, query))
    .orderBy('frames.order_ms', order)
    .orderBy('frames.id', id)
    .limit(query.limit + 1);
}

/** The shown files of some frames, by frame, oldest first. */
async function filesOf(db: Kysely<Tables>, frames: readonly string[]): Promise<Map<string, BriefFile[]>> {
  const byFrame = new Map<string, BriefFile[]>();
  if (frames.length === 0) return byFrame;
  const rows = await db
    .selectFrom('arrivals')
    .select(['id', 'frame', 'name', 'state'])
    .where('frame', 'in', [...frames])
    .where('state', 'in', [...listedStates])
    .orderBy('started_ms')
    .orderBy('id')
    .execute();
  const copies = await copiesOf(
    db,
    rows.map(({ id }) => id),
  );
  for (const { id, frame, name, state } of rows) {
    const of = byFrame.get(frame) ?? [];
    byFrame.set(frame, of);
    of.push({ arrival: id, name, state, copies: copies.get(id) ?? [] });
  }
  return byFrame;
}

async function copiesOf(
  db: Kysely<Tables>,
  arrivals: readonly string[],
): Promise<Map<string, BriefFile['copies'][number][]>> {
  const byArrival = new Map<string, BriefFile['copies'][number][]>();
  if (arrivals.length === 0) return byArrival;
  const rows = await db
    .selectFrom('copies')
    .select(['arrival', 'place', 'other_device'])
    .where('arrival', 'in', [...arrivals])
    .execute();
  for (const { arrival, place, other_device: otherDevice } of rows) {
    const of = byArrival.get(arrival) ?? [];
    byArrival.set(arrival, of);
    of.push({ place, otherDevice: otherDevice === 1 });
  }
  return byArrival;
}
