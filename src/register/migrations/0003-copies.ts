import type { Kysely, Migration } from 'kysely';

/** Which second places hold which original. */
export const copies: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('places')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('folder', 'text', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('copies')
      .addColumn('arrival', 'text', (column) => column.notNull())
      .addColumn('place', 'text', (column) => column.notNull())
      .addColumn('read_back', 'text', (column) => column.notNull())
      .addColumn('other_device', 'integer', (column) => column.notNull())
      .addColumn('copied_ms', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('copies_key', ['arrival', 'place'])
      .execute();
    await db.schema.alterTable('files').dropColumn('copies').execute();
  },
};
