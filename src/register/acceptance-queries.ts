import type { Kysely } from 'kysely';
import { judgements, questions } from '../facts/index.ts';
import { compiledOnce } from './compiled-once.ts';
import type { AcceptanceRow } from './rows.ts';
import type { Tables } from './tables.ts';

/** What was accepted of one frame, in the order of the questions. */
export async function selectAcceptancesOfFrame(
  db: Kysely<Tables>,
  frame: string,
): Promise<readonly AcceptanceRow[]> {
  return acceptancesByFrame(await acceptancesOfFrame(db, frame)).get(frame) ?? [];
}

/** Asked for with each change of each frame, so it is built once. */
const acceptancesOfFrame = compiledOnce((db, id: string) => acceptanceSelection(db, [id]));

/** What was accepted of some frames, by frame, in the order of the questions. */
export async function selectAcceptances(
  db: Kysely<Tables>,
  frames: readonly string[],
): Promise<Map<string, AcceptanceRow[]>> {
  return frames.length === 0
    ? new Map()
    : acceptancesByFrame(await acceptanceSelection(db, frames).execute());
}

function acceptanceSelection(db: Kysely<Tables>, frames: readonly string[]) {
  return db
    .selectFrom('acceptances')
    .selectAll()
    .where('frame', 'in', [...frames]);
}

function acceptancesByFrame(
  rows: readonly Awaited<ReturnType<ReturnType<typeof acceptanceSelection>['execute']>>[number][],
): Map<string, AcceptanceRow[]> {
  const byFrame = new Map<string, AcceptanceRow[]>();
  for (const question of questions) {
    for (const row of rows) {
      const judgement = judgements.find((known) => known === row.judgement);
      if (row.question !== question || judgement === undefined || judgement === 'good') continue;
      const { name, reason, set_ms: atMs } = row;
      byFrame.set(row.frame, [
        ...(byFrame.get(row.frame) ?? []),
        { question, judgement, name, reason, atMs },
      ]);
    }
  }
  return byFrame;
}
