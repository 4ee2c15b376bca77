import type { Kysely, Migration } from 'kysely';

/** What was read in a frame's pixels: figures that each look at it needs, and the rest, which is large. */
export const readings: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('frame_facts').addColumn('readings', 'text').execute();
    await db.schema.alterTable('frame_facts').addColumn('reading_detail', 'text').execute();
  },
};
