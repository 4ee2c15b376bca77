import type { EpochMs } from '../../base/index.ts';
import type { LightTrend } from '../../facts/index.ts';
import { partReadings } from '../../judge/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { ReadFrame } from './frame-judging.ts';
import type { LightBook, TrendOfFrame } from './light-book.ts';

/** Where readings are noted. */
export interface NotingReadings {
  readonly book: Pick<FrameBook, 'row' | 'frame' | 'note'>;
  readonly lights: Pick<LightBook, 'take'>;
  readonly now: () => EpochMs;
}

/**
 * Notes what was read in a frame's pixels. What a preview says makes way for everything else, and for nothing. `tell`
 * hears of the frame, and of each other that is judged differently by it, after it was noted.
 */
export async function noteReadings(
  noting: NotingReadings,
  frame: string,
  { readings, held }: ReadFrame,
  tell: (frame: string) => Promise<void>,
): Promise<void> {
  const { book, lights, now } = noting;
  const row = await book.row(frame);
  const { source } = readings.exposed;
  const known = row?.readings?.exposed.source ?? null;
  if (row === null || (source === 'preview' && known !== null && known !== 'preview')) return;
  const { trend, later } = await lights.take(row, readings);
  const { kept, detail } = partReadings(readings, trend, held);
  const said = known === source ? (row.readings?.said ?? {}) : {};
  await book.note(frame, { readings: { ...kept, said }, readingDetail: detail, judgedMs: now() });
  await keepVerdicts(noting, frame);
  await tell(frame);
  await relightAll(noting, later, tell);
}

/** Notes what is known now of the light of frames that were read before, and tells each. */
export async function relightAll(
  noting: NotingReadings,
  trends: readonly TrendOfFrame[],
  tell: (frame: string) => Promise<void>,
): Promise<void> {
  for (const { frame, trend } of trends) if (await relight(noting, frame, trend)) await tell(frame);
}

/** A frame before this one was read after it: what is known of its light has changed. False where nothing is known of it. */
async function relight(noting: NotingReadings, id: string, trend: LightTrend | null): Promise<boolean> {
  const { book } = noting;
  const readings = (await book.row(id))?.readings ?? null;
  if (readings === null) return false;
  await book.note(id, { readings: { ...readings, trend } });
  await keepVerdicts(noting, id);
  return true;
}

/** A verdict holds on to what it was, so that it does not flicker about its limit. */
async function keepVerdicts({ book }: NotingReadings, id: string): Promise<void> {
  const frame = await book.frame(id);
  const readings = (await book.row(id))?.readings;
  if (frame === null || readings === undefined || readings === null) return;
  const { sharp, exposed, inPlace, colour } = frame.verdicts;
  const said = {
    sharp: sharp.judgement,
    exposed: exposed.judgement,
    inPlace: inPlace.judgement,
    colour: colour.judgement,
  };
  await book.note(id, { readings: { ...readings, said } });
}
