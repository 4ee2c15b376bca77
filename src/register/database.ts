import { DEFAULT_MIGRATION_TABLE, Kysely, type Migration, Migrator, sql } from 'kysely';
import { SetsideError } from '../base/index.ts';
import type { RegisterDialect } from './dialects.ts';
import { migrations } from './migrations/index.ts';
import type { Tables } from './tables.ts';

/**
 * A database with its tables as this version wants them, or as `steps` leave them. Rejects `register-newer`, and what the
 * database rejects.
 */
export async function openDatabase(
  address: string,
  dialect: RegisterDialect,
  steps: Readonly<Record<string, Migration>> = migrations,
): Promise<Kysely<Tables>> {
  const db = new Kysely<Tables>({ dialect: dialect.open(address) });
  const migrator = new Migrator({ db, provider: { getMigrations: async () => ({ ...steps }) } });
  try {
    await refuseNewer(db, migrator);
    const { error } = await migrator.migrateToLatest();
    if (error !== undefined) throw error;
    return db;
  } catch (thrown) {
    await db.destroy();
    throw thrown;
  }
}

/**
 * A later version has been here: its tables may hold what this one would not keep in step. The file is left as it is.
 */
async function refuseNewer(db: Kysely<Tables>, migrator: Migrator): Promise<void> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some(({ name }) => name === DEFAULT_MIGRATION_TABLE)) return;
  const known = new Set((await migrator.getMigrations()).map(({ name }) => name));
  const made = await sql<{ name: string }>`select name from ${sql.table(DEFAULT_MIGRATION_TABLE)}`.execute(
    db,
  );
  const unknown = made.rows.map(({ name }) => name).find((name) => !known.has(name));
  if (unknown === undefined) return;
  throw new SetsideError('register-newer', `a later version of Setside made the register (step ${unknown})`, {
    cure: 'Use that version or a later one. Or take setside.db away: it is made anew from the journal.',
  });
}
