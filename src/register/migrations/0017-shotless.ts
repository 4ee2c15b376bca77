import type { Kysely, Migration } from 'kysely';

/** Why a frame went to no shot as it came. Of frames that are here already nobody wrote it down. */
export const shotless: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('frames').addColumn('shotless', 'text').execute();
  },
};
