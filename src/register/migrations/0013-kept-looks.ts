import type { Kysely, Migration } from 'kysely';

/** Saved versions of looks, and the one that was chosen for a frame alone. Nobody has saved or chosen any so far. */
export const keptLooks: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('looks')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('version', 'integer', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull())
      .addColumn('document', 'text', (column) => column.notNull())
      .addColumn('saved_by', 'text', (column) => column.notNull())
      .addColumn('saved_ms', 'bigint', (column) => column.notNull())
      .addColumn('aside', 'integer', (column) => column.notNull())
      .execute();
    await db.schema.alterTable('frames').addColumn('look', 'text').execute();
  },
};
