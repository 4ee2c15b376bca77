import type { Kysely } from 'kysely';
import type { JobRow } from './rows.ts';
import type { Tables } from './tables.ts';

export async function selectJobs(db: Kysely<Tables>): Promise<JobRow[]> {
  const rows = await db.selectFrom('jobs').selectAll().orderBy('opened_ms', 'desc').orderBy('code').execute();
  return rows.map((row) => ({
    code: row.code,
    title: row.title,
    client: row.client,
    // Written by applyRecord from a job-opened record's shots, in this database, by this program.
    shots: JSON.parse(row.shots) as JobRow['shots'],
    openedMs: row.opened_ms,
    open: row.open === 1,
  }));
}
