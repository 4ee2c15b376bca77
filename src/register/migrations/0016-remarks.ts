import type { Kysely, Migration } from 'kysely';

/** What people say of frames, who agreed to which shot, and what guests see by hand. Nobody has said anything so far. */
export const remarks: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('remarks')
      .addColumn('frame', 'text', (column) => column.notNull())
      .addColumn('id', 'text', (column) => column.notNull())
      .addColumn('seq', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('remarks_key', ['frame', 'id'])
      .execute();
    await db.schema.alterTable('frames').addColumn('share', 'text').execute();
    await db.schema
      .alterTable('jobs')
      .addColumn('agreements', 'text', (column) => column.notNull().defaultTo('[]'))
      .execute();
  },
};
