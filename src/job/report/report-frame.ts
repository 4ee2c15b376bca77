import type { EpochMs } from '../../base/index.ts';
import type { Judgement, Mark, Purpose, Tolerance } from '../../facts/index.ts';
import type { StrikeFile } from '../strike/strike-frame.ts';

/** What the report reads of a frame. */
export interface ReportFrame {
  readonly id: string;
  readonly name: string;
  readonly camera: string;
  readonly shot: string | null;
  readonly mark: Mark;
  readonly purpose: Purpose;
  /** Its place in the day. */
  readonly momentMs: EpochMs;
  /** Null where its camera told none. */
  readonly shutter: ReportShutter | null;
  /** Taken from a card or a watched folder: it lay there for as long as it pleased somebody. */
  readonly fromFolder: boolean;
  /** By the station's clock; null for what has not happened. */
  readonly times: {
    readonly firstByteMs: EpochMs | null;
    readonly firstViewMs: EpochMs | null;
    readonly keptMs: EpochMs | null;
    readonly renderedMs: EpochMs | null;
  };
  /** Of a frame with a target that was read; null for every other. */
  readonly colour: ReportColour | null;
  /** Against the reference of its shot, EV; null where that is not known. */
  readonly lightEv: number | null;
  readonly files: readonly (StrikeFile & { readonly readBack: 'direct' | 'cached' | null })[];
}

export interface ReportShutter {
  /** Corrected by what was said of the camera's clock. */
  readonly atMs: EpochMs;
  /** As in `ShutterTime` (facts). */
  readonly offsetKnown: boolean;
  readonly subSecondsKnown: boolean;
}

export interface ReportColour {
  /** CIEDE2000 over the patches as developed without a look; null where the camera's colours are not known. */
  readonly meanDeltaE00: number | null;
  readonly maxDeltaE00: number | null;
  /** The mean as it is delivered, by a target that counts (of that very target: leave-one-out); null where none does. */
  readonly deliveredMeanDeltaE00: number | null;
  readonly meanLimit: Tolerance;
  readonly maxLimit: Tolerance;
  /** The verdict on it, by those limits or by the job's set of limits. */
  readonly judgement: Judgement;
}
