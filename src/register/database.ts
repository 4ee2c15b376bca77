import { Kysely, Migrator } from 'kysely';
import type { RegisterDialect } from './dialects.ts';
import { migrations } from './migrations/index.ts';
import type { Tables } from './tables.ts';

/** A database with its tables as this version wants them. Rejects what the database rejects. */
export async function openDatabase(address: string, dialect: RegisterDialect): Promise<Kysely<Tables>> {
  const db = new Kysely<Tables>({ dialect: dialect.open(address) });
  const migrator = new Migrator({ db, provider: { getMigrations: async () => ({ ...migrations }) } });
  const { error } = await migrator.migrateToLatest();
  if (error === undefined) return db;
  await db.destroy();
  throw error;
}
