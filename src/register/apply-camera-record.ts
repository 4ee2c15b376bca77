import type { Kysely } from 'kysely';
import type { RegisterRecord } from './records.ts';
import type { Tables } from './tables.ts';

type Of<Type extends RegisterRecord['type']> = Extract<RegisterRecord, { type: Type }>;

/** Carries what people say of a camera into the tables. */
export async function applyCameraRecord(
  db: Kysely<Tables>,
  record: Of<'camera-set' | 'camera-clock-set'>,
): Promise<void> {
  return record.type === 'camera-set' ? setCamera(db, record) : noteClock(db, record);
}

async function setCamera(db: Kysely<Tables>, { camera, expects, atMs }: Of<'camera-set'>): Promise<void> {
  await db
    .insertInto('cameras')
    .values({ name: camera, expects, said_ms: atMs })
    .onConflict((conflict) => conflict.column('name').doUpdateSet({ expects, said_ms: atMs }))
    .execute();
}

async function noteClock(db: Kysely<Tables>, record: Of<'camera-clock-set'>): Promise<void> {
  const { seq, camera, offsetMs, sinceMs } = record;
  await db
    .insertInto('camera_clocks')
    .values({ seq, camera, offset_ms: offsetMs, since_ms: sinceMs })
    .execute();
}
