import type { Frame, Station } from '../../contract/index.ts';
import { isOfTheShoot } from '../../facts/index.ts';
import {
  type Job,
  type ReportClock,
  type ReportColour,
  type ReportFrame,
  type ReportInput,
  type StrikeCheck,
  tolerancesInForce,
} from '../../job/index.ts';
import { usualTolerances } from '../../judge/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { CameraClocks } from '../cameras/camera-clocks.ts';
import type { FrameBook } from '../frame-book.ts';
import { stateHash } from '../jobs/strike-shape.ts';

export interface ReportSources {
  readonly book: Pick<FrameBook, 'page' | 'rows' | 'filesOf' | 'limits'>;
  readonly clocks: Pick<CameraClocks, 'isSaid'>;
  readonly cameras: Station['cameras'];
  readonly secondPlaces: number;
}

/** What the report of a job goes by: register and journal, brought to the room `job`. */
export async function reportInput(
  sources: ReportSources,
  job: Job,
  check: StrikeCheck,
): Promise<ReportInput> {
  const { signed } = job.strike;
  return {
    check,
    frames: await reportFrames(sources, job),
    clocks: sources.cameras.map((camera) => clockOf(sources, camera)),
    lightLimit: tolerancesInForce(job, null).lightEv ?? usualTolerances.lightEv,
    secondPlaces: sources.secondPlaces,
    signed:
      signed === null
        ? null
        : { name: signed.name, atMs: signed.atMs, stands: signed.state === stateHash(check) },
  };
}

async function reportFrames({ book }: ReportSources, job: Job): Promise<ReportFrame[]> {
  const found: ReportFrame[] = [];
  let after: string | null = null;
  do {
    const query = { job: job.code, limit: 500, ...(after === null ? {} : { after }) };
    const rows: Awaited<ReturnType<FrameBook['rows']>> = await book.rows(query);
    const { frames } = await book.page(query);
    const byId = new Map(frames.map((frame) => [frame.id, frame]));
    for (const row of rows.frames) {
      const frame = byId.get(row.id);
      if (frame !== undefined && isOfTheShoot(frame)) found.push(reportFrame(book, row, frame));
    }
    after = rows.next;
  } while (after !== null);
  return found;
}

function reportFrame(book: ReportSources['book'], row: FrameRow, frame: Frame): ReportFrame {
  const { id, name, camera, shot, mark, purpose, orderMs, times, capture, shutterMs } = row;
  const looked = book.filesOf(row);
  const said = capture?.shutter;
  return {
    ...{ id, name, camera, shot, mark, purpose, momentMs: orderMs },
    shutter:
      said === undefined || shutterMs === null
        ? null
        : { atMs: shutterMs, offsetKnown: said.offsetKnown, subSecondsKnown: said.subSecondsKnown },
    fromFolder: looked.some(({ fromFolder }) => fromFolder),
    times: {
      firstByteMs: times.firstByteMs,
      firstViewMs: times.firstViewMs,
      keptMs: times.keptMs,
      renderedMs: times.renderedMs,
    },
    colour: colourOf(book, row, frame),
    lightEv: frame.readings.lightEv ?? null,
    files: looked.map(({ file, original }) => {
      const counting = file.places.filter(({ otherDevice }) => otherDevice);
      const direct = counting.some(({ readBack }) => readBack === 'direct');
      return {
        name: file.name,
        state: original === null ? file.state : 'damaged',
        copies: file.copies,
        readBack: counting.length === 0 ? null : direct ? 'direct' : 'cached',
      };
    }),
  };
}

function colourOf(
  book: ReportSources['book'],
  row: FrameRow,
  { readings, verdicts }: Frame,
): ReportColour | null {
  if (row.readings?.colour?.found !== true || readings.targetWidthPx === undefined) return null;
  const { tolerances } = book.limits(row);
  return {
    meanDeltaE00: readings.meanDeltaE00 ?? null,
    maxDeltaE00: readings.maxDeltaE00 ?? null,
    deliveredMeanDeltaE00: readings.deliveredMeanDeltaE00 ?? null,
    meanLimit: tolerances.meanDeltaE00 ?? usualTolerances.meanDeltaE00,
    maxLimit: tolerances.maxDeltaE00 ?? usualTolerances.maxDeltaE00,
    judgement: verdicts.colour.judgement,
  };
}

/** What a clock slate showed, with what is corrected already: as far as both differ, and as the slate is unsure, times may be wrong. */
function clockOf(
  { clocks }: ReportSources,
  { name, clockSeen, clockOffsetMs }: Station['cameras'][number],
): ReportClock {
  const plusMinusMs =
    clockSeen === null ? null : Math.abs(clockOffsetMs - clockSeen.offsetMs) + clockSeen.plusMinusMs;
  return { camera: name, plusMinusMs, said: clocks.isSaid(name) };
}
