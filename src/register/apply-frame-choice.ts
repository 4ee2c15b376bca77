import type { Kysely } from 'kysely';
import type { FrameChoice } from '../job/index.ts';
import type { Tables } from './tables.ts';

/** Carries a choice about a frame into the tables and raises the frame's version. */
export async function applyFrameChoice(
  db: Kysely<Tables>,
  choice: FrameChoice & { readonly atMs: number },
): Promise<void> {
  await changeFrame(db, choice);
  await raiseVersion(db, choice.frame);
}

async function changeFrame(
  db: Kysely<Tables>,
  choice: FrameChoice & { readonly atMs: number },
): Promise<void> {
  switch (choice.type) {
    case 'mark-set':
      return setMark(db, choice);
    case 'job-set':
      return setOfFrame(db, choice.frame, { job: choice.job });
    case 'shot-set':
      return setOfFrame(db, choice.frame, { shot: choice.shot, placed: 'hand' });
    case 'shot-followed':
      return setOfFrame(db, choice.frame, { shot: choice.shot, placed: choice.by });
    case 'slate-heeded':
      return setOfFrame(db, choice.frame, { slate: JSON.stringify(choice.slate), slate_ms: choice.atMs });
    case 'purpose-set':
      return setOfFrame(db, choice.frame, { purpose: choice.purpose });
    case 'spot-set':
      return setOfFrame(db, choice.frame, {
        spot: choice.spot === null ? null : JSON.stringify(choice.spot),
      });
    case 'look-set':
      return setOfFrame(db, choice.frame, { look: choice.look });
    case 'share-set':
      return setOfFrame(db, choice.frame, { share: choice.share });
    case 'acceptance-set':
      return setAcceptance(db, choice);
  }
}

async function setOfFrame(
  db: Kysely<Tables>,
  frame: string,
  change: Partial<Tables['frames']>,
): Promise<void> {
  await db.updateTable('frames').set(change).where('id', '=', frame).execute();
}

async function setMark(
  db: Kysely<Tables>,
  { frame, mark, atMs }: Extract<FrameChoice, { type: 'mark-set' }> & { readonly atMs: number },
): Promise<void> {
  const row = { mark, set_ms: atMs };
  await db
    .insertInto('marks')
    .values({ frame, ...row })
    .onConflict((conflict) => conflict.column('frame').doUpdateSet(row))
    .execute();
}

async function setAcceptance(
  db: Kysely<Tables>,
  choice: Extract<FrameChoice, { type: 'acceptance-set' }> & { readonly atMs: number },
): Promise<void> {
  const { frame, question, acceptance, atMs } = choice;
  if (acceptance === null) {
    await db.deleteFrom('acceptances').where('frame', '=', frame).where('question', '=', question).execute();
    return;
  }
  const { judgement, name, reason } = acceptance;
  const row = { judgement, name, reason, set_ms: atMs };
  await db
    .insertInto('acceptances')
    .values({ frame, question, ...row })
    .onConflict((conflict) => conflict.columns(['frame', 'question']).doUpdateSet(row))
    .execute();
}

export async function raiseVersion(db: Kysely<Tables>, frame: string): Promise<void> {
  await db
    .updateTable('frames')
    .set((row) => ({ version: row('version', '+', 1) }))
    .where('id', '=', frame)
    .execute();
}
