import type { ExposedReading, LightTrend } from './exposed-reading.ts';
import type { SharpReading } from './sharp-reading.ts';
import type { Judgement, Question } from './verdict.ts';

/** What was read in the pixels of one frame. */
export interface FrameReadings {
  readonly sharp: SharpReading;
  readonly exposed: ExposedReading;
}

/** What is kept of a frame's readings: the readings, its light among the others', and what was said of it last. */
export interface KeptReadings extends FrameReadings {
  readonly trend: LightTrend | null;
  /** Last verdicts of this frame: a verdict holds on to what it was. */
  readonly said: Readonly<Partial<Record<Question, Judgement>>>;
}
