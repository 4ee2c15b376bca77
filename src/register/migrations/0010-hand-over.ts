import type { Kysely, Migration } from 'kysely';

/** How a job is handed over: naming template, look, names of delivery specifications. Nobody has said any so far. */
export const handOver: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('jobs')
      .addColumn('hand_over', 'text', (column) =>
        column.notNull().defaultTo('{"naming":"","look":null,"deliveries":[]}'),
      )
      .execute();
  },
};
