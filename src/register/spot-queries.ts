import type { Kysely } from 'kysely';
import type { EpochMs } from '../base/index.ts';
import type { FocusSpot, ShareBox } from '../facts/index.ts';
import type { Tables } from './tables.ts';

/** A frame's place in its shot. */
export interface PlaceInShot {
  readonly id: string;
  readonly job: string;
  readonly shot: string | null;
  readonly orderMs: EpochMs;
}

/** Spots that are looked through: those for one frame only stand between. */
const spotsMax = 50;

/** The spot that was pointed out last for the shot from there on, up to this frame; null for none, and outside shots. */
export async function selectSpotOnward(
  db: Kysely<Tables>,
  { id, job, shot, orderMs }: PlaceInShot,
): Promise<ShareBox | null> {
  if (shot === null) return null;
  const rows = await db
    .selectFrom('frames')
    .select('spot')
    .where('job', '=', job)
    .where('shot', '=', shot)
    .where('spot', 'is not', null)
    .where(({ eb }) => eb(eb.refTuple('order_ms', 'id'), '<=', eb.tuple(orderMs, id)))
    .orderBy('order_ms', 'desc')
    .orderBy('id', 'desc')
    .limit(spotsMax)
    .execute();
  for (const { spot } of rows) {
    // Written by applyFrameChoice from this very type, in this database, by this program.
    const known = spot === null ? null : (JSON.parse(spot) as FocusSpot);
    if (known?.onward === true) return known.box;
  }
  return null;
}
