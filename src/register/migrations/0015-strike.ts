import type { Kysely, Migration } from 'kysely';

/** What people said for the strike check of a job. Nobody has said anything so far. */
export const strike: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('jobs')
      .addColumn('strike', 'text', (column) =>
        column.notNull().defaultTo('{"lastNumbers":[],"explained":[],"signed":null}'),
      )
      .execute();
  },
};
