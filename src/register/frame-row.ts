import type { Kysely } from 'kysely';
import {
  type CaptureFacts,
  type FocusSpot,
  frameShares,
  type Mark,
  marks,
  type Purpose,
  purposes,
  type Remark,
  shotlessAtArrival,
} from '../facts/index.ts';
import { type HeededSlate, type PlacedBy, placers } from '../job/index.ts';
import { keptReadings } from './reading-queries.ts';
import type { AcceptanceRow, FileRow, FrameRow, JsonObject, SeenInPicture } from './rows.ts';
import type { Tables } from './tables.ts';

export type FrameSelection = ReturnType<typeof frameSelection>;

/** What a frame's row is made of, but for its files and what people said of it: those are asked for beside it. */
export function frameSelection(db: Kysely<Tables>) {
  return db
    .selectFrom('frames')
    .leftJoin('frame_facts', 'frame_facts.frame', 'frames.id')
    .leftJoin('marks', 'marks.frame', 'frames.id')
    .select((row) =>
      row
        .selectFrom('arrivals')
        .select((of) => of.fn.min('arrivals.started_ms').as('began_ms'))
        .whereRef('arrivals.frame', '=', 'frames.id')
        .as('began_ms'),
    )
    .select([
      'frames.id',
      'frames.job',
      'frames.shot',
      'frames.purpose',
      'frames.spot',
      'frames.look',
      'frames.share',
      'frames.placed',
      'frames.shotless',
      'frames.slate',
      'frames.camera',
      'frames.name',
      'frames.order_ms',
      'frames.first_byte_ms',
      'frames.last_byte_ms',
      'frames.kept_ms',
      'frames.version',
      'frame_facts.kind',
      'frame_facts.shutter_ms',
      'frame_facts.first_view_ms',
      'frame_facts.rendered_ms',
      'frame_facts.judged_ms',
      'frame_facts.capture',
      'frame_facts.picture',
      'frame_facts.seen',
      'frame_facts.readings',
      'frame_facts.version as facts_version',
      'marks.mark',
      'marks.set_ms as marked_ms',
    ]);
}

type SelectedFrame = Awaited<ReturnType<FrameSelection['execute']>>[number];

/** A frame as the register tells it. */
export function frameRow(
  row: SelectedFrame,
  files: readonly FileRow[],
  acceptances: readonly AcceptanceRow[],
  remarks: readonly Remark[],
): FrameRow {
  return {
    id: row.id,
    job: row.job,
    shot: row.shot,
    camera: row.camera,
    name: row.name,
    kind: row.kind,
    shutterMs: row.shutter_ms,
    orderMs: row.order_ms,
    times: {
      beganMs: row.began_ms,
      firstByteMs: row.first_byte_ms,
      firstViewMs: row.first_view_ms,
      lastByteMs: row.last_byte_ms,
      keptMs: row.kept_ms,
      renderedMs: row.rendered_ms,
      judgedMs: row.judged_ms,
    },
    // Written by upsertFacts from these very types, in this database, by this program.
    capture: row.capture === null ? null : (JSON.parse(row.capture) as CaptureFacts),
    picture: row.picture === null ? null : (JSON.parse(row.picture) as JsonObject),
    marked: row.mark !== null,
    markedMs: row.marked_ms,
    placedBy: placers.find((placer): placer is PlacedBy => placer === row.placed) ?? 'arrival',
    shotless: shotlessAtArrival.find((reason) => reason === row.shotless) ?? null,
    // Written by applyFrameChoice and upsertFacts from these very types, as above.
    look: row.look,
    spot: row.spot === null ? null : (JSON.parse(row.spot) as FocusSpot),
    slate: row.slate === null ? null : (JSON.parse(row.slate) as HeededSlate),
    seen: row.seen === null ? null : (JSON.parse(row.seen) as SeenInPicture),
    readings: keptReadings(row.readings),
    mark: marks.find((mark): mark is Mark => mark === row.mark) ?? 'none',
    purpose: purposes.find((purpose): purpose is Purpose => purpose === row.purpose) ?? 'picture',
    share: frameShares.find((share) => share === row.share) ?? null,
    acceptances,
    remarks,
    files,
    version: row.version + (row.facts_version ?? 0),
  };
}
