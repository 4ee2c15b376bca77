import type { Kysely, Migration } from 'kysely';

/** When it was said what a camera sends: frames from before are not judged by it. 0 where nobody noted the time. */
export const whenSaid: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('cameras')
      .addColumn('said_ms', 'bigint', (column) => column.notNull().defaultTo(0))
      .execute();
  },
};
