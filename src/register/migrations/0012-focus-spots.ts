import type { Kysely, Migration } from 'kysely';

/** Where people said that a frame has to be sharp. Nobody has so far. */
export const focusSpots: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('frames').addColumn('spot', 'text').execute();
  },
};
