import type { Kysely, Migration } from 'kysely';

/** How large things on the set are in the pictures of a shot. Nobody has said so far. */
export const shotScales: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('jobs')
      .addColumn('scales', 'text', (column) => column.notNull().defaultTo('[]'))
      .execute();
  },
};
