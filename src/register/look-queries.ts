import type { Kysely } from 'kysely';
import type { LookChoice } from '../job/index.ts';
import type { LookRow } from './rows.ts';
import type { Tables } from './tables.ts';

/** Carries a choice about a saved version of a look into the tables. One that was saved before stays as it was. */
export async function applyLookChoice(
  db: Kysely<Tables>,
  record: LookChoice & { readonly atMs: number },
): Promise<void> {
  if (record.type === 'look-aside-set') return setAside(db, record.look, record.aside ? 1 : 0);
  const { look: id, name, version, hash, document, by, atMs } = record;
  const row = { id, name, version, hash, document: JSON.stringify(document), saved_by: by, saved_ms: atMs };
  await db
    .insertInto('looks')
    .values({ ...row, aside: 0 })
    .onConflict((conflict) => conflict.column('id').doUpdateSet({ aside: 0 }))
    .execute();
}

async function setAside(db: Kysely<Tables>, id: string, aside: number): Promise<void> {
  await db.updateTable('looks').set({ aside }).where('id', '=', id).execute();
}

/** Every saved version, the oldest first. */
export async function selectLooks(db: Kysely<Tables>): Promise<LookRow[]> {
  const rows = await db.selectFrom('looks').selectAll().orderBy('saved_ms').orderBy('id').execute();
  return rows.map(({ saved_by: savedBy, saved_ms: savedMs, aside, document, ...row }) => ({
    ...row,
    document: JSON.parse(document),
    savedBy,
    savedMs,
    laidAside: aside === 1,
  }));
}
