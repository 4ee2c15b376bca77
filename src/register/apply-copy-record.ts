import type { Kysely } from 'kysely';
import { raiseVersion } from './apply-frame-choice.ts';
import type { RegisterRecord } from './records.ts';
import type { Tables } from './tables.ts';

type Of<Type extends RegisterRecord['type']> = Extract<RegisterRecord, { type: Type }>;

/** Carries what is said of second places, and of the copies in them, into the tables. */
export async function applyCopyRecord(
  db: Kysely<Tables>,
  record: Of<'copied' | 'copy-lost' | 'place-made'>,
): Promise<void> {
  switch (record.type) {
    case 'copied':
      return noteCopy(db, record);
    case 'copy-lost':
      return forgetCopy(db, record);
    case 'place-made':
      return notePlace(db, record);
  }
}

/** A file copied anew, to a place on another device now, say: the newest word stands. */
async function noteCopy(db: Kysely<Tables>, record: Of<'copied'>): Promise<void> {
  const { arrival, place, readBack, otherDevice, atMs } = record;
  const row = { read_back: readBack, other_device: otherDevice ? 1 : 0, copied_ms: atMs };
  await db
    .insertInto('copies')
    .values({ arrival, place, ...row })
    .onConflict((conflict) => conflict.columns(['arrival', 'place']).doUpdateSet(row))
    .execute();
  await raiseVersionOfFile(db, arrival);
}

async function forgetCopy(db: Kysely<Tables>, { arrival, place }: Of<'copy-lost'>): Promise<void> {
  await db.deleteFrom('copies').where('arrival', '=', arrival).where('place', '=', place).execute();
  await raiseVersionOfFile(db, arrival);
}

async function raiseVersionOfFile(db: Kysely<Tables>, arrival: string): Promise<void> {
  const file = await db.selectFrom('files').select('frame').where('arrival', '=', arrival).executeTakeFirst();
  if (file !== undefined) await raiseVersion(db, file.frame);
}

async function notePlace(db: Kysely<Tables>, { place: id, folder }: Of<'place-made'>): Promise<void> {
  await db
    .insertInto('places')
    .values({ id, folder })
    .onConflict((conflict) => conflict.column('id').doUpdateSet({ folder }))
    .execute();
}
