import type { Kysely } from 'kysely';
import { type ExpectedFiles, expectedFiles } from '../facts/index.ts';
import type { CameraRow } from './rows.ts';
import type { Tables } from './tables.ts';

/** Every camera of which something was said, by name. */
export async function selectCameras(db: Kysely<Tables>): Promise<CameraRow[]> {
  const rows = await db.selectFrom('cameras').selectAll().orderBy('name').execute();
  return rows.map(({ name, expects, said_ms }) => ({
    name,
    saidMs: said_ms,
    expects: expectedFiles.find((known): known is ExpectedFiles => known === expects) ?? null,
  }));
}
