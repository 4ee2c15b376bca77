import type { Kysely } from 'kysely';
import { type ExpectedFiles, expectedFiles } from '../facts/index.ts';
import type { CameraRow } from './rows.ts';
import type { Tables } from './tables.ts';

/** Every camera of which something was said, by name. */
export async function selectCameras(db: Kysely<Tables>): Promise<CameraRow[]> {
  const rows = await db.selectFrom('cameras').selectAll().orderBy('name').execute();
  const clocks = await db.selectFrom('camera_clocks').selectAll().orderBy('seq').execute();
  const names = new Set([...rows, ...clocks.map(({ camera }) => ({ name: camera }))].map(({ name }) => name));
  return [...names].sort().map((name) => {
    const said = rows.find((row) => row.name === name);
    return {
      name,
      expects: expectedFiles.find((known): known is ExpectedFiles => known === said?.expects) ?? null,
      saidMs: said?.said_ms ?? null,
      clocks: clocks
        .filter(({ camera }) => camera === name)
        .map(({ offset_ms, since_ms }) => ({ offsetMs: offset_ms, sinceMs: since_ms })),
    };
  });
}
