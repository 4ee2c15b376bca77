import type { Kysely } from 'kysely';
import { type KeptReadings, type ReadingDetail, readingsEdition } from '../facts/index.ts';
import type { Tables } from './tables.ts';

/** The large part of a frame's readings, or null. */
export async function selectReadingDetail(db: Kysely<Tables>, frame: string): Promise<ReadingDetail | null> {
  const row = await db
    .selectFrom('frame_facts')
    .select(['readings', 'reading_detail'])
    .where('frame', '=', frame)
    .executeTakeFirst();
  if (row?.reading_detail == null || keptReadings(row.readings) === null) return null;
  return JSON.parse(row.reading_detail) as ReadingDetail;
}

/** Written by upsertFacts from this very type; an earlier edition's figures mean something else. */
export function keptReadings(text: string | null): KeptReadings | null {
  if (text === null) return null;
  const readings = JSON.parse(text) as KeptReadings;
  return readings.edition === readingsEdition ? readings : null;
}
