import type { Kysely, Migration } from 'kysely';
import { sql } from 'kysely';

/** Slates and grey cards: what was seen in a frame, who put a frame to its shot. Frames that are here were looked at by nobody, and are not looked at now. */
export const slates: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    const frames = db.schema.alterTable('frames');
    await frames.addColumn('placed', 'text', (column) => column.notNull().defaultTo('arrival')).execute();
    await frames.addColumn('slate', 'text').execute();
    await frames.addColumn('slate_ms', 'bigint').execute();
    await db.schema
      .alterTable('jobs')
      .addColumn('grey_card', 'integer', (column) => column.notNull().defaultTo(0))
      .execute();
    await db.schema.alterTable('frame_facts').addColumn('seen', 'text').execute();
    await sql`update frame_facts set seen = ${'{"finding":null}'} where picture is not null`.execute(db);
  },
};
