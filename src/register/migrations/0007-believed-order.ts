import type { Kysely, Migration } from 'kysely';
import { sql } from 'kysely';

/** Frames were ordered by a shutter that could not be believed; six hours are what the rule was at this step. */
export const believedOrder: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const started = sql`(select min(started_ms) from arrivals where arrivals.frame = frames.id)`;
    const shutter = sql`(select shutter_ms from frame_facts where frame_facts.frame = frames.id)`;
    await sql`update frames set order_ms = ${started} where ${started} is not null`.execute(db);
    await sql`update frames set order_ms = ${shutter} where ${shutter} <= order_ms and ${shutter} >= order_ms - 21600000`.execute(
      db,
    );
  },
};
