import type {
  ExposedFigures,
  ExposedReading,
  LightDifference,
  LightMap,
  LightTrend,
  LostMap,
  StopsHistogram,
} from './exposed-reading.ts';
import type { EdgeProfile, SharpFigures, SharpMap, SharpReading } from './sharp-reading.ts';
import type { Judgement, Question } from './verdict.ts';

/** What was read in the pixels of one frame. */
export interface FrameReadings {
  readonly sharp: SharpReading;
  readonly exposed: ExposedReading;
}

/** Raised whenever kept readings mean something else: older ones are read anew. */
export const readingsEdition = 3;

/** What is kept of a frame's readings beside the frame: figures, and what they were held against. */
export interface KeptReadings {
  readonly edition: number;
  readonly sharp: SharpFigures;
  readonly exposed: ExposedFigures;
  /** Among the frames before it; null where there were too few. */
  readonly trend: LightTrend | null;
  /** Against the frame that its shot is held against; null where there is none, or nothing is known of it. */
  readonly against: AgainstReference | null;
  /** Last verdicts of this frame: a verdict holds on to what it was. */
  readonly said: Readonly<Partial<Record<Question, Judgement>>>;
}

/** What readings of a reference say to those of a frame. */
export interface AgainstReference {
  /** The reference's id. */
  readonly frame: string;
  readonly sharp: Pick<SharpFigures, 'source' | 'atSpot'>;
  /** Difference of the light, what the dials explain taken off; null where it cannot be told. */
  readonly light: LightDifference | null;
}

/** The rest of the readings: large, and looked at one frame at a time. */
export interface ReadingDetail {
  readonly map: SharpMap;
  readonly histogram: StopsHistogram;
  readonly light: LightMap;
  readonly profile: EdgeProfile | null;
  readonly lost: LostMap;
}
