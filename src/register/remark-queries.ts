import type { Kysely } from 'kysely';
import type { Remark } from '../facts/index.ts';
import type { RemarkChoice } from '../job/index.ts';
import { raiseVersion } from './apply-frame-choice.ts';
import type { Tables } from './tables.ts';

type Stamped<Choice> = Choice & { readonly seq: number; readonly atMs: number };

/** Carries what somebody said about a frame into the tables and raises the frame's version. */
export async function applyRemarkChoice(db: Kysely<Tables>, choice: Stamped<RemarkChoice>): Promise<void> {
  if (choice.type === 'remark-made') await insertRemark(db, choice);
  else await changeRemark(db, choice);
  await raiseVersion(db, choice.frame);
}

async function insertRemark(
  db: Kysely<Tables>,
  { frame, seq, atMs, remark }: Stamped<Extract<RemarkChoice, { type: 'remark-made' }>>,
): Promise<void> {
  const { id, at, text, inside, by } = remark;
  const body: Remark = { id, at, text, inside, by, atMs, settled: null, answers: [] };
  await db
    .insertInto('remarks')
    .values({ frame, id, seq, body: JSON.stringify(body) })
    .onConflict((conflict) => conflict.columns(['frame', 'id']).doNothing())
    .execute();
}

async function changeRemark(
  db: Kysely<Tables>,
  choice: Stamped<Exclude<RemarkChoice, { type: 'remark-made' }>>,
): Promise<void> {
  const { frame, remark: id } = choice;
  const row = await db
    .selectFrom('remarks')
    .select('body')
    .where('frame', '=', frame)
    .where('id', '=', id)
    .executeTakeFirst();
  if (row === undefined) return;
  const body = JSON.stringify(changed(remarkOfBody(row.body), choice));
  await db.updateTable('remarks').set({ body }).where('frame', '=', frame).where('id', '=', id).execute();
}

function changed(remark: Remark, choice: Stamped<Exclude<RemarkChoice, { type: 'remark-made' }>>): Remark {
  const { atMs } = choice;
  if (choice.type === 'remark-settled')
    return { ...remark, settled: choice.settled ? { by: choice.by, atMs } : null };
  const others = remark.answers.filter(({ id }) => id !== choice.answer.id);
  return { ...remark, answers: [...others, { ...choice.answer, atMs }] };
}

/** Written by the functions above, in this database, by this program. */
function remarkOfBody(body: string): Remark {
  return JSON.parse(body) as Remark;
}

/** The remarks of frames, each frame's in the order they were made. */
export async function selectRemarks(
  db: Kysely<Tables>,
  frames: readonly string[],
): Promise<ReadonlyMap<string, readonly Remark[]>> {
  const byFrame = new Map<string, Remark[]>();
  if (frames.length === 0) return byFrame;
  const rows = await db
    .selectFrom('remarks')
    .select(['frame', 'body'])
    .where('frame', 'in', [...frames])
    .orderBy('seq')
    .execute();
  for (const { frame, body } of rows) {
    byFrame.set(frame, [...(byFrame.get(frame) ?? []), remarkOfBody(body)]);
  }
  return byFrame;
}
