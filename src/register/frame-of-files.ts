import type { Kysely } from 'kysely';
import { isXmpName, legibleName } from '../base/index.ts';
import { layoutSender } from '../job/index.ts';
import { selectPlaceForArrival } from './apply-job-record.ts';
import { compiledOnce } from './compiled-once.ts';
import { placeFrame } from './frame-place.ts';
import type { ArrivalRowState, Tables } from './tables.ts';

/** The frame's row, made at its first file: it belongs to the shot that is current then. */
export async function needFrame(
  db: Kysely<Tables>,
  of: { readonly frame: string; readonly job: string; readonly camera: string; readonly path: string },
  atMs: number,
): Promise<void> {
  await db
    .insertInto('frames')
    .values({
      id: of.frame,
      job: of.job,
      camera: of.camera,
      ...(of.camera === layoutSender
        ? { shot: null, shotless: null }
        : await selectPlaceForArrival(db, of.job, of.camera)),
      placed: 'arrival',
      slate: null,
      slate_ms: null,
      purpose: 'picture',
      spot: null,
      look: null,
      name: nameOf(of.path),
      order_ms: atMs,
      first_byte_ms: null,
      last_byte_ms: null,
      kept_ms: null,
      listed: 0,
      version: 0,
    })
    .onConflict((conflict) => conflict.column('id').doNothing())
    .execute();
}

/** States in which a frame shows a file. */
export const listedStates: readonly ArrivalRowState[] = [
  'arriving',
  'whole',
  'unproved',
  'broken-off',
  'damaged',
];

/** What a frame says of itself that its files decide. */
export async function refreshFrame(db: Kysely<Tables>, frame: string): Promise<void> {
  const [of] = await cameraOf(db, frame);
  const arrivals = await listedArrivals(db, frame);
  const [kept] = await lastKept(db, frame);
  // Words about a picture may come before it: the frame has the picture's name.
  const first = arrivals.find(({ name }) => !isXmpName(name)) ?? arrivals[0];
  await db
    .updateTable('frames')
    .set((row) => ({
      ...(first === undefined ? {} : { name: first.name }),
      first_byte_ms: extreme(Math.min, arrivals, 'first_byte_ms'),
      last_byte_ms: extreme(Math.max, arrivals, 'last_byte_ms'),
      kept_ms: kept?.kept_ms ?? null,
      listed: of?.camera === layoutSender ? 0 : arrivals.length,
      version: row('version', '+', 1),
    }))
    .where('id', '=', frame)
    .execute();
  // What was found out before a rebuild decides too.
  await placeFrame(db, frame);
}

const cameraOf = compiledOnce((db, frame: string) =>
  db.selectFrom('frames').select('camera').where('id', '=', frame),
);

const listedArrivals = compiledOnce((db, frame: string) =>
  db
    .selectFrom('arrivals')
    .select(['name', 'first_byte_ms', 'last_byte_ms'])
    .where('frame', '=', frame)
    .where('state', 'in', [...listedStates])
    .orderBy('started_ms')
    .orderBy('id'),
);

const lastKept = compiledOnce((db, frame: string) =>
  db
    .selectFrom('files')
    .select((row) => row.fn.max('kept_ms').as('kept_ms'))
    .where('frame', '=', frame),
);

function extreme<Name extends string>(
  pick: (...values: number[]) => number,
  rows: readonly Readonly<Record<Name, number | null>>[],
  name: Name,
): number | null {
  const values = rows.map((row) => row[name]).filter((value) => value !== null);
  return values.length === 0 ? null : pick(...values);
}

export function nameOf(path: string): string {
  return legibleName(path.slice(path.lastIndexOf('/') + 1));
}
