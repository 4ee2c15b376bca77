import type { Kysely } from 'kysely';
import { dayMoment } from '../base/index.ts';
import { compiledOnce } from './compiled-once.ts';
import type { Tables } from './tables.ts';

/**
 * Puts a frame to its place in the day, by its shutter and by when its first file began: both outlive a rebuild, in whatever
 * order they become known. A frame of which neither is known keeps its place.
 */
export async function placeFrame(db: Kysely<Tables>, frame: string): Promise<void> {
  const [facts] = await shutterOf(db, frame);
  const [arrivals] = await beganOf(db, frame);
  const orderMs = dayMoment(facts?.shutter_ms ?? null, arrivals?.started_ms ?? null);
  if (orderMs === null) return;
  await moveTo(db, frame, orderMs);
}

const shutterOf = compiledOnce((db, frame: string) =>
  db.selectFrom('frame_facts').select('shutter_ms').where('frame', '=', frame),
);
const beganOf = compiledOnce((db, frame: string) =>
  db
    .selectFrom('arrivals')
    .select((row) => row.fn.min('started_ms').as('started_ms'))
    .where('frame', '=', frame),
);
const moveTo = compiledOnce((db, frame: string, orderMs: number) =>
  db.updateTable('frames').set({ order_ms: orderMs }).where('id', '=', frame),
);
