import type { Kysely } from 'kysely';
import type { HeededSlate, ShotWord } from '../job/index.ts';
import type { Tables } from './tables.ts';

/** The slates and grey cards in force of a job, in the order of the shutter. */
export async function selectSlates(db: Kysely<Tables>, job: string): Promise<ShotWord[]> {
  const rows = await db
    .selectFrom('frames')
    .select(['order_ms', 'slate', 'slate_ms'])
    .where('job', '=', job)
    .where('slate', 'is not', null)
    .orderBy('order_ms')
    .orderBy('id')
    .execute();
  return rows.flatMap(({ order_ms: atMs, slate, slate_ms: heardMs }) => {
    if (slate === null) return [];
    // Written by applyFrameChoice from a record, in this database, by this program.
    const { job: of, shot, before, inForce } = JSON.parse(slate) as HeededSlate;
    return inForce && of === job ? [{ atMs, heardMs: heardMs ?? atMs, shot, before }] : [];
  });
}
