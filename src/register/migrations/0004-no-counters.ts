import type { Kysely, Migration } from 'kysely';

/** The counter is read off the name, which a camera may change after the upload. */
export const noCounters: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('frame_facts').dropColumn('counter').execute();
  },
};
