import type { Kysely } from 'kysely';
import type { EpochMs } from '../base/index.ts';
import {
  type CaptureFacts,
  type LightMap,
  type LightSourceName,
  type Purpose,
  purposes,
  type ReadingDetail,
} from '../facts/index.ts';
import { keptReadings } from './reading-queries.ts';
import type { Tables } from './tables.ts';

/** Which frames: those of a shot by one camera up to a place in the order of the shutter, the place among them. */
export interface LitFramesQuery {
  readonly job: string;
  readonly shot: string | null;
  readonly camera: string;
  readonly upTo: { readonly orderMs: EpochMs; readonly id: string };
  readonly limit: number;
}

/** A frame whose light was read. */
export interface LitFrameRow {
  readonly id: string;
  readonly name: string;
  readonly orderMs: EpochMs;
  readonly purpose: Purpose;
  readonly capture: CaptureFacts | null;
  readonly source: LightSourceName;
  readonly light: LightMap;
}

/** The last of them, oldest first; those whose pixels were not read are left out. */
export async function selectLitFrames(
  db: Kysely<Tables>,
  { job, shot, camera, upTo, limit }: LitFramesQuery,
): Promise<LitFrameRow[]> {
  const rows = await litSelection(db)
    .where('frames.job', '=', job)
    .where('frames.shot', 'is not distinct from', shot)
    .where('frames.camera', '=', camera)
    .where(({ eb }) => eb(eb.refTuple('frames.order_ms', 'frames.id'), '<=', eb.tuple(upTo.orderMs, upTo.id)))
    .orderBy('frames.order_ms', 'desc')
    .orderBy('frames.id', 'desc')
    .limit(limit)
    .execute();
  return rows.reverse().flatMap(litFrameRow);
}

/** One such frame, or null. */
export async function selectLitFrame(db: Kysely<Tables>, id: string): Promise<LitFrameRow | null> {
  const row = await litSelection(db).where('frames.id', '=', id).executeTakeFirst();
  return row === undefined ? null : (litFrameRow(row)[0] ?? null);
}

function litSelection(db: Kysely<Tables>) {
  return db
    .selectFrom('frames')
    .innerJoin('frame_facts', 'frame_facts.frame', 'frames.id')
    .select([
      'frames.id',
      'frames.name',
      'frames.order_ms',
      'frames.purpose',
      'frame_facts.capture',
      'frame_facts.readings',
      'frame_facts.reading_detail',
    ])
    .where('frames.listed', '>', 0)
    .where('frame_facts.reading_detail', 'is not', null);
}

type LitSelected = Awaited<ReturnType<ReturnType<typeof litSelection>['execute']>>[number];

function litFrameRow(row: LitSelected): LitFrameRow[] {
  const readings = keptReadings(row.readings);
  if (readings === null || row.reading_detail === null) return [];
  // Written by upsertFacts from these very types, in this database, by this program.
  const { light } = JSON.parse(row.reading_detail) as ReadingDetail;
  const capture = row.capture === null ? null : (JSON.parse(row.capture) as CaptureFacts);
  const { id, name, order_ms: orderMs } = row;
  const purpose = purposes.find((each) => each === row.purpose) ?? 'picture';
  return [{ id, name, orderMs, purpose, capture, source: readings.exposed.source, light }];
}
