import type { Kysely, Migration } from 'kysely';

/** Frames with their files, marks and jobs. */
export const firstTables: Migration = {
  // A migration speaks of the tables as they were then, never of today's types.
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('frames')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('job', 'text', (column) => column.notNull())
      .addColumn('camera', 'text', (column) => column.notNull())
      .addColumn('shot', 'text')
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('order_ms', 'bigint', (column) => column.notNull())
      .addColumn('first_byte_ms', 'bigint')
      .addColumn('last_byte_ms', 'bigint')
      .addColumn('kept_ms', 'bigint')
      .addColumn('listed', 'integer', (column) => column.notNull())
      .addColumn('version', 'integer', (column) => column.notNull())
      .execute();
    await db.schema.createIndex('frames_by_order').on('frames').columns(['order_ms', 'id']).execute();
    await db.schema
      .createIndex('frames_by_job_and_order')
      .on('frames')
      .columns(['job', 'order_ms', 'id'])
      .execute();
    await db.schema
      .createTable('arrivals')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('frame', 'text', (column) => column.notNull())
      .addColumn('camera', 'text', (column) => column.notNull())
      .addColumn('view_path', 'text', (column) => column.notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('incoming', 'text', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('size', 'bigint', (column) => column.notNull())
      .addColumn('expected_size', 'bigint')
      .addColumn('announced_size', 'bigint')
      .addColumn('sha256', 'text')
      .addColumn('started_ms', 'bigint', (column) => column.notNull())
      .addColumn('first_byte_ms', 'bigint')
      .addColumn('last_byte_ms', 'bigint')
      .addColumn('hidden', 'integer', (column) => column.notNull())
      .execute();
    await db.schema.createIndex('arrivals_by_frame').on('arrivals').column('frame').execute();
    await db.schema
      .createIndex('arrivals_by_view_path')
      .on('arrivals')
      .columns(['camera', 'view_path'])
      .execute();
    await db.schema
      .createTable('files')
      .addColumn('arrival', 'text', (column) => column.primaryKey())
      .addColumn('frame', 'text', (column) => column.notNull())
      .addColumn('path', 'text', (column) => column.notNull())
      .addColumn('size', 'bigint', (column) => column.notNull())
      .addColumn('sha256', 'text', (column) => column.notNull())
      .addColumn('wholeness', 'text', (column) => column.notNull())
      .addColumn('kept_ms', 'bigint', (column) => column.notNull())
      .addColumn('copies', 'integer', (column) => column.notNull())
      .execute();
    await db.schema.createIndex('files_by_frame').on('files').column('frame').execute();
    await db.schema
      .createTable('marks')
      .addColumn('frame', 'text', (column) => column.primaryKey())
      .addColumn('mark', 'text', (column) => column.notNull())
      .addColumn('set_ms', 'bigint', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('jobs')
      .addColumn('code', 'text', (column) => column.primaryKey())
      .addColumn('title', 'text', (column) => column.notNull())
      .addColumn('client', 'text', (column) => column.notNull())
      .addColumn('shots', 'text', (column) => column.notNull())
      .addColumn('opened_ms', 'bigint', (column) => column.notNull())
      .addColumn('open', 'integer', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('frame_facts')
      .addColumn('frame', 'text', (column) => column.primaryKey())
      .addColumn('counter', 'integer')
      .addColumn('kind', 'text')
      .addColumn('shutter_ms', 'bigint')
      .addColumn('first_view_ms', 'bigint')
      .addColumn('rendered_ms', 'bigint')
      .addColumn('judged_ms', 'bigint')
      .addColumn('capture', 'text')
      .addColumn('picture', 'text')
      .addColumn('version', 'integer', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('progress')
      .addColumn('id', 'integer', (column) => column.primaryKey())
      .addColumn('applied_seq', 'bigint', (column) => column.notNull())
      .execute();
  },
};
