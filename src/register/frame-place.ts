import type { Kysely } from 'kysely';
import { dayMoment } from '../base/index.ts';
import type { Tables } from './tables.ts';

/**
 * Puts a frame to its place in the day, by its shutter and by when its first file began: both outlive a rebuild, in whatever
 * order they become known. A frame of which neither is known keeps its place.
 */
export async function placeFrame(db: Kysely<Tables>, frame: string): Promise<void> {
  const facts = await db
    .selectFrom('frame_facts')
    .select('shutter_ms')
    .where('frame', '=', frame)
    .executeTakeFirst();
  const arrivals = await db
    .selectFrom('arrivals')
    .select((row) => row.fn.min('started_ms').as('started_ms'))
    .where('frame', '=', frame)
    .executeTakeFirst();
  const orderMs = dayMoment(facts?.shutter_ms ?? null, arrivals?.started_ms ?? null);
  if (orderMs === null) return;
  await db.updateTable('frames').set({ order_ms: orderMs }).where('id', '=', frame).execute();
}
