import { type Kysely, type Migration, sql } from 'kysely';

/** Jobs with their words and limits, shots of their own table, purposes, acceptances, and clocks of cameras. */
export const jobsAndShots: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('shots')
      .addColumn('job', 'text', (column) => column.notNull())
      .addColumn('id', 'text', (column) => column.notNull())
      .addColumn('place', 'integer', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('shots_key', ['job', 'id'])
      .execute();
    await moveShots(db);
    const jobs = db.schema.alterTable('jobs');
    for (const name of ['from_date', 'to_date', 'current_shot']) await jobs.addColumn(name, 'text').execute();
    for (const [name, before] of [
      ['place', ''],
      ['notes', ''],
      ['state', 'waiting'],
      ['tolerances', '{}'],
    ] as const) {
      await jobs.addColumn(name, 'text', (column) => column.notNull().defaultTo(before)).execute();
    }
    await jobs.addColumn('version', 'integer', (column) => column.notNull().defaultTo(0)).execute();
    await sql`update jobs set state = 'open' where open = 1`.execute(db);
    await jobs.dropColumn('open').execute();
    await jobs.dropColumn('shots').execute();
    await db.schema
      .alterTable('frames')
      .addColumn('purpose', 'text', (column) => column.notNull().defaultTo('picture'))
      .execute();
    await db.schema.createIndex('frames_by_shot').on('frames').columns(['job', 'shot']).execute();
    await db.schema
      .createTable('acceptances')
      .addColumn('frame', 'text', (column) => column.notNull())
      .addColumn('question', 'text', (column) => column.notNull())
      .addColumn('judgement', 'text', (column) => column.notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('reason', 'text', (column) => column.notNull())
      .addColumn('set_ms', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('acceptances_key', ['frame', 'question'])
      .execute();
    await db.schema
      .createTable('camera_clocks')
      .addColumn('seq', 'bigint', (column) => column.primaryKey())
      .addColumn('camera', 'text', (column) => column.notNull())
      .addColumn('offset_ms', 'bigint', (column) => column.notNull())
      .addColumn('since_ms', 'bigint')
      .execute();
  },
};

/** Shots lay in their job's row as JSON, `[{id, name}]`. */
async function moveShots(db: Kysely<unknown>): Promise<void> {
  const { rows } = await sql<{ code: string; shots: string }>`select code, shots from jobs`.execute(db);
  for (const { code, shots } of rows) {
    // Written by the program of that time in this very form.
    const listed = JSON.parse(shots) as { id: string; name: string }[];
    for (const [place, { id, name }] of listed.entries()) {
      await sql`insert into shots (job, id, place, body)
        values (${code}, ${id}, ${place}, ${bodyOf(id, name)}) on conflict do nothing`.execute(db);
    }
  }
}

/** What a shot was of which nothing was said but its name, in the order the fields are written. */
function bodyOf(id: string, name: string): string {
  return JSON.stringify({
    id,
    name,
    description: '',
    camera: null,
    look: null,
    layout: null,
    reference: null,
    baselines: [],
    heroes: 1,
    selects: 0,
    agreement: false,
    requires: ['arrived', 'sharp', 'exposed', 'inPlace', 'colour'],
    mutes: [],
    tolerances: {},
    hidden: false,
  });
}
