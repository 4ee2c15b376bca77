import type { Kysely } from 'kysely';
import type { CountedTarget, GivenAgreement, JobColour, ShotScale, Tolerances } from '../facts/index.ts';
import { type HandOver, type JobState, jobStates, type StrikeState } from '../job/index.ts';
import { selectShots } from './apply-job-record.ts';
import type { JobRow } from './rows.ts';
import type { Tables } from './tables.ts';

/** Every job with its shots, the newest opened first. */
export async function selectJobs(db: Kysely<Tables>): Promise<JobRow[]> {
  const rows = await db.selectFrom('jobs').selectAll().orderBy('opened_ms', 'desc').orderBy('code').execute();
  const jobs: JobRow[] = [];
  for (const row of rows) {
    jobs.push({
      code: row.code,
      title: row.title,
      client: row.client,
      fromDate: row.from_date,
      toDate: row.to_date,
      place: row.place,
      notes: row.notes,
      state: jobStates.find((state): state is JobState => state === row.state) ?? 'waiting',
      // Written by applyJobRecord from a record's tolerances, in this database, by this program.
      tolerances: JSON.parse(row.tolerances) as Tolerances,
      greyCard: row.grey_card === 1,
      // As above.
      handOver: JSON.parse(row.hand_over) as HandOver,
      colour: JSON.parse(row.colour) as JobColour,
      targets: JSON.parse(row.targets) as CountedTarget[],
      scales: JSON.parse(row.scales) as ShotScale[],
      strike: JSON.parse(row.strike) as StrikeState,
      agreements: JSON.parse(row.agreements) as GivenAgreement[],
      shots: await selectShots(db, row.code),
      currentShot: row.current_shot,
      version: row.version,
    });
  }
  return jobs;
}

/** Frames that show something, of a job or of one shot of it. */
export async function countFrames(db: Kysely<Tables>, job: string, shot?: string): Promise<number> {
  const frames = db.selectFrom('frames').where('job', '=', job).where('listed', '>', 0);
  const { count } = await (shot === undefined ? frames : frames.where('shot', '=', shot))
    .select((row) => row.fn.countAll<number>().as('count'))
    .executeTakeFirstOrThrow();
  return count;
}
