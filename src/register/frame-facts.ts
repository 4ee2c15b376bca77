import type { Kysely, Updateable } from 'kysely';
import { placeFrame } from './frame-place.ts';
import type { FrameFacts } from './rows.ts';
import type { FrameFactsTable, Tables } from './tables.ts';

/** Notes facts about a frame, which need not be in the tables yet; a shutter time moves it to its place. */
export async function upsertFrameFacts(
  db: Kysely<Tables>,
  frame: string,
  facts: Partial<FrameFacts>,
): Promise<void> {
  const columns = columnsOf(facts);
  await db.transaction().execute(async (transaction) => {
    await transaction
      .insertInto('frame_facts')
      .values({ ...noFacts, ...columns, frame, version: 1 })
      .onConflict((conflict) =>
        conflict.column('frame').doUpdateSet((row) => ({
          ...columns,
          version: row('frame_facts.version', '+', 1),
        })),
      )
      .execute();
    if (facts.shutterMs === undefined || facts.shutterMs === null) return;
    await placeFrame(transaction, frame);
  });
}

const noFacts = {
  kind: null,
  shutter_ms: null,
  first_view_ms: null,
  rendered_ms: null,
  judged_ms: null,
  capture: null,
  picture: null,
  seen: null,
  readings: null,
  reading_detail: null,
} satisfies Omit<FrameFactsTable, 'frame' | 'version'>;

function columnsOf(facts: Partial<FrameFacts>): Updateable<FrameFactsTable> {
  return {
    ...(facts.kind === undefined ? {} : { kind: facts.kind }),
    ...(facts.shutterMs === undefined ? {} : { shutter_ms: facts.shutterMs }),
    ...(facts.firstViewMs === undefined ? {} : { first_view_ms: facts.firstViewMs }),
    ...(facts.renderedMs === undefined ? {} : { rendered_ms: facts.renderedMs }),
    ...(facts.judgedMs === undefined ? {} : { judged_ms: facts.judgedMs }),
    ...(facts.capture === undefined ? {} : { capture: jsonOrNull(facts.capture) }),
    ...(facts.picture === undefined ? {} : { picture: jsonOrNull(facts.picture) }),
    ...(facts.seen === undefined ? {} : { seen: jsonOrNull(facts.seen) }),
    ...(facts.readings === undefined ? {} : { readings: jsonOrNull(facts.readings) }),
    ...(facts.readingDetail === undefined ? {} : { reading_detail: jsonOrNull(facts.readingDetail) }),
  };
}

function jsonOrNull(value: unknown): string | null {
  return value === null ? null : JSON.stringify(value);
}
