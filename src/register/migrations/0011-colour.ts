import type { Kysely, Migration } from 'kysely';

/** How colour is judged in a job, and the frames whose target counts. Nobody has said any so far. */
export const colour: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('jobs')
      .addColumn('colour', 'text', (column) =>
        column.notNull().defaultTo('{"edition":null,"toleranceSet":null}'),
      )
      .execute();
    await db.schema
      .alterTable('jobs')
      .addColumn('targets', 'text', (column) => column.notNull().defaultTo('[]'))
      .execute();
  },
};
