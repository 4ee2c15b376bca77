import type { Kysely, Migration } from 'kysely';

/** What is expected of each camera. */
export const cameras: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('cameras')
      .addColumn('name', 'text', (column) => column.primaryKey())
      .addColumn('expects', 'text')
      .execute();
  },
};
