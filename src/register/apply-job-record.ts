import type { Kysely } from 'kysely';
import type { GivenAgreement, ShotlessAtArrival } from '../facts/index.ts';
import {
  type JobChoice,
  noStrike,
  plainShot,
  type Shot,
  type StrikeState,
  shotForArrival,
  trayCode,
  withAgreement,
} from '../job/index.ts';
import { compiledOnce } from './compiled-once.ts';
import type { RegisterRecord } from './records.ts';
import type { Tables } from './tables.ts';

type Stamped<Record> = Record & { readonly seq: number; readonly atMs: number };
type Body<Type extends JobChoice['type']> = Stamped<Extract<JobChoice, { type: Type }>>;

/** Carries a choice about a job into the tables; the outcome is that of `applyJobChoice`, row by row. */
export async function applyJobRecord(db: Kysely<Tables>, record: Stamped<JobChoice>): Promise<void> {
  if (record.type === 'job-described') await describeJob(db, record);
  else if (record.type === 'job-removed') return removeJob(db, record.job);
  else if (!(await hasJob(db, record.job))) return;
  await changeJob(db, record);
  await raiseJobVersion(db, record.job);
}

async function changeJob(db: Kysely<Tables>, record: Stamped<JobChoice>): Promise<void> {
  switch (record.type) {
    case 'job-described':
    case 'job-removed':
      return;
    case 'job-state-set':
      return setState(db, record);
    case 'job-tolerances-set':
      return setOfJob(db, record.job, { tolerances: JSON.stringify(record.tolerances) });
    case 'job-hand-over-set': {
      const { naming, look, lookId, deliveries, metadata } = record;
      const handOver = { naming, look, lookId, deliveries, metadata };
      return setOfJob(db, record.job, { hand_over: JSON.stringify(handOver) });
    }
    case 'job-colour-set': {
      const { edition, toleranceSet } = record;
      return setOfJob(db, record.job, { colour: JSON.stringify({ edition, toleranceSet }) });
    }
    case 'job-targets-set':
      return setOfJob(db, record.job, { targets: JSON.stringify(record.targets) });
    case 'job-scales-set':
      return setOfJob(db, record.job, { scales: JSON.stringify(record.scales) });
    case 'job-last-numbers-set':
      return setOfStrike(db, record.job, { lastNumbers: record.lastNumbers });
    case 'job-explained-set':
      return setOfStrike(db, record.job, { explained: record.explained });
    case 'job-signed-set':
      return setOfStrike(db, record.job, { signed: record.signed });
    case 'agreed':
      return changeAgreements(db, record.job, (known) => withAgreement(known, record.agreement));
    case 'agreement-withdrawn':
      return changeAgreements(db, record.job, (known) => known.filter(({ id }) => id !== record.agreement));
    case 'job-grey-card-set':
      return setOfJob(db, record.job, { grey_card: record.on ? 1 : 0 });
    case 'shot-stated':
      return stateShot(db, record.job, record.shot);
    case 'shots-ordered':
      return orderShots(db, record);
    case 'shot-removed':
      return removeShot(db, record);
    case 'shot-current-set':
      return setOfJob(db, record.job, { current_shot: record.shot });
  }
}

async function hasJob(db: Kysely<Tables>, code: string): Promise<boolean> {
  const row = await db.selectFrom('jobs').select('code').where('code', '=', code).executeTakeFirst();
  return row !== undefined;
}

async function setOfJob(db: Kysely<Tables>, code: string, change: Partial<Tables['jobs']>): Promise<void> {
  await db.updateTable('jobs').set(change).where('code', '=', code).execute();
}

/** What people said for the strike check stands in one column, each part of it said by itself. */
async function setOfStrike(db: Kysely<Tables>, code: string, change: Partial<StrikeState>): Promise<void> {
  const row = await db.selectFrom('jobs').select('strike').where('code', '=', code).executeTakeFirst();
  if (row === undefined) return;
  // Written here, in this database, by this program.
  const before = JSON.parse(row.strike) as StrikeState;
  await setOfJob(db, code, { strike: JSON.stringify({ ...before, ...change }) });
}

export async function raiseJobVersion(db: Kysely<Tables>, code: string): Promise<void> {
  await db
    .updateTable('jobs')
    .set((row) => ({ version: row('version', '+', 1) }))
    .where('code', '=', code)
    .execute();
}

async function changeAgreements(
  db: Kysely<Tables>,
  code: string,
  change: (known: readonly GivenAgreement[]) => readonly GivenAgreement[],
): Promise<void> {
  const row = await db.selectFrom('jobs').select('agreements').where('code', '=', code).executeTakeFirst();
  // Written by this function, in this database, by this program.
  const known = JSON.parse(row?.agreements ?? '[]') as GivenAgreement[];
  await setOfJob(db, code, { agreements: JSON.stringify(change(known)) });
}

async function describeJob(db: Kysely<Tables>, record: Body<'job-described'>): Promise<void> {
  const { title, client, place, notes } = record;
  const told = { title, client, place, notes, from_date: record.fromDate, to_date: record.toDate };
  await db
    .insertInto('jobs')
    .values({ ...emptyJob, code: record.job, opened_ms: record.atMs, ...told })
    .onConflict((conflict) => conflict.column('code').doUpdateSet(told))
    .execute();
}

export const emptyJob = {
  title: '',
  client: '',
  place: '',
  notes: '',
  from_date: null,
  to_date: null,
  state: 'waiting',
  tolerances: '{}',
  grey_card: 0,
  hand_over: '{"naming":"","look":null,"deliveries":[]}',
  colour: '{"edition":null,"toleranceSet":null}',
  targets: '[]',
  scales: '[]',
  strike: JSON.stringify(noStrike),
  agreements: '[]',
  current_shot: null,
  version: 0,
} satisfies Omit<Tables['jobs'], 'code' | 'opened_ms'>;

async function removeJob(db: Kysely<Tables>, code: string): Promise<void> {
  await db.deleteFrom('shots').where('job', '=', code).execute();
  await db.deleteFrom('jobs').where('code', '=', code).execute();
}

async function setState(db: Kysely<Tables>, { job, state, atMs }: Body<'job-state-set'>): Promise<void> {
  if (state === 'open') await layAside(db, job);
  await setOfJob(db, job, { state, ...(state === 'open' ? { opened_ms: atMs } : {}) });
}

/** The job that was open waits; null for whichever it is. */
export async function layAside(db: Kysely<Tables>, except: string | null): Promise<void> {
  await db
    .updateTable('jobs')
    .set((row) => ({ state: 'waiting', version: row('version', '+', 1) }))
    .where('state', '=', 'open')
    .where('code', '!=', except ?? '')
    .execute();
}

export async function stateShot(db: Kysely<Tables>, job: string, shot: Shot): Promise<void> {
  const last = await db
    .selectFrom('shots')
    .select((row) => row.fn.max('place').as('place'))
    .where('job', '=', job)
    .executeTakeFirst();
  const body = JSON.stringify({ ...plainShot(shot.id, shot.name), ...shot });
  await db
    .insertInto('shots')
    .values({ job, id: shot.id, place: (last?.place ?? -1) + 1, body })
    .onConflict((conflict) => conflict.columns(['job', 'id']).doUpdateSet({ body }))
    .execute();
}

async function orderShots(db: Kysely<Tables>, { job, shots }: Body<'shots-ordered'>): Promise<void> {
  const rows = await db.selectFrom('shots').select('id').where('job', '=', job).orderBy('place').execute();
  const known = new Set(rows.map(({ id }) => id));
  const named = new Set(shots);
  const order = [
    ...shots.filter((id) => known.has(id)),
    ...rows.map(({ id }) => id).filter((id) => !named.has(id)),
  ];
  for (const [place, id] of order.entries()) {
    await db.updateTable('shots').set({ place }).where('job', '=', job).where('id', '=', id).execute();
  }
}

async function removeShot(db: Kysely<Tables>, { job, shot }: Body<'shot-removed'>): Promise<void> {
  await db.deleteFrom('shots').where('job', '=', job).where('id', '=', shot).execute();
  await db
    .updateTable('jobs')
    .set({ current_shot: null })
    .where('code', '=', job)
    .where('current_shot', '=', shot)
    .execute();
}

/** A version 1 record: the job is opened, and its list is this one. */
export async function openJob(
  db: Kysely<Tables>,
  record: Extract<RegisterRecord, { type: 'job-opened' }>,
): Promise<void> {
  const { code, title, client, shots, atMs } = record;
  await layAside(db, code);
  const told = { title, client, state: 'open', opened_ms: atMs };
  await db
    .insertInto('jobs')
    .values({ ...emptyJob, code, ...told })
    .onConflict((conflict) => conflict.column('code').doUpdateSet(told))
    .execute();
  const before = new Map((await selectShots(db, code)).map((shot) => [shot.id, shot]));
  await db.deleteFrom('shots').where('job', '=', code).execute();
  for (const { id, name } of shots) {
    await stateShot(db, code, { ...(before.get(id) ?? plainShot(id, name)), name });
  }
  await raiseJobVersion(db, code);
}

/** The shots of a job in their order, hidden ones among them. */
export async function selectShots(db: Kysely<Tables>, job: string): Promise<Shot[]> {
  const rows = await db
    .selectFrom('shots')
    .select('body')
    .where('job', '=', job)
    .orderBy('place')
    .orderBy('id')
    .execute();
  // Written by stateShot, or by a migration in the same form, in this database, by this program.
  return rows.map(({ body }) => JSON.parse(body) as Shot);
}

/** The shot that a frame of this job and camera goes to as it comes, or why it goes to none; the tray has none at all. */
export async function selectPlaceForArrival(
  db: Kysely<Tables>,
  job: string,
  camera: string,
): Promise<{ readonly shot: string | null; readonly shotless: ShotlessAtArrival | null }> {
  const [row] = await currentShot(db, job);
  // As in selectShots.
  const current = row === undefined ? null : (JSON.parse(row.body) as Shot);
  if (row !== undefined && current !== null) {
    const shot = shotForArrival({ currentShot: row.current_shot, shots: [current] }, camera);
    if (shot !== null) return { shot, shotless: null };
  }
  if (job === trayCode) return { shot: null, shotless: null };
  if (current !== null && !current.hidden) return { shot: null, shotless: 'other-camera' };
  const listed = (await selectShots(db, job)).some(({ hidden }) => !hidden);
  return { shot: null, shotless: listed ? 'no-current' : 'no-shots' };
}

const currentShot = compiledOnce((db, job: string) =>
  db
    .selectFrom('jobs')
    .innerJoin('shots', (join) =>
      join.onRef('shots.job', '=', 'jobs.code').onRef('shots.id', '=', 'jobs.current_shot'),
    )
    .select(['jobs.current_shot', 'shots.body'])
    .where('jobs.code', '=', job),
);
