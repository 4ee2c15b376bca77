import type {
  ColourDrift,
  ColourFigures,
  ColourMap,
  ColourReading,
  PatchReading,
  TargetReading,
} from './colour-reading.ts';
import type {
  ExposedFigures,
  ExposedReading,
  LightDifference,
  LightMap,
  LightTrend,
  LostMap,
  StopsHistogram,
} from './exposed-reading.ts';
import type { PlaceReading } from './place-reading.ts';
import type { EdgeProfile, ShareBox, SharpFigures, SharpMap, SharpReading } from './sharp-reading.ts';
import type { Judgement, Question } from './verdict.ts';

/** What was read in the pixels of one frame. */
export interface FrameReadings {
  readonly sharp: SharpReading;
  readonly exposed: ExposedReading;
  readonly place: PlaceReading;
  /** What a target in the frame says; null where nobody asked for one. */
  readonly colour: ColourReading | null;
  /** Null of a preview, whose colours are its camera's. */
  readonly colours: ColourMap | null;
}

/** Raised whenever kept readings mean something else: older ones are read anew. */
export const readingsEdition = 10;

/** What is kept of a frame's readings beside the frame: figures, and what they were held against. */
export interface KeptReadings {
  readonly edition: number;
  readonly sharp: SharpFigures;
  readonly exposed: ExposedFigures;
  readonly place: KeptPlace;
  /** What a target in the frame says; null where nobody asked for one. Its patches are in {@link ReadingDetail}. */
  readonly colour: ColourFigures | null;
  /** Against the target that counts for it; null where there is none, or nothing is known of it. */
  readonly drift: DriftFromTarget | null;
  /** The target in it as it is rendered, by one that counts; null or left out where it is rendered by none. */
  readonly delivered?: DeliveredColour | null;
  /** Among the frames before it; null where there were too few. */
  readonly trend: LightTrend | null;
  /** Against the frame that its shot is held against; null where there is none, or nothing is known of it. */
  readonly against: AgainstReference | null;
  /** Last verdicts of this frame: a verdict holds on to what it was. */
  readonly said: Readonly<Partial<Record<Question, Judgement>>>;
}

/** Where the subject lies, with what it was held against. */
export interface KeptPlace extends PlaceReading {
  /** Id of the frame or layout picture that `shift` was measured against; null for none. */
  readonly reference: string | null;
}

/** What a target in a frame says of the frame as it is rendered and delivered: by the balance and matrix of a target that counts. */
export interface DeliveredColour extends Pick<TargetReading, 'colour' | 'flat' | 'greys'> {
  /** Id of the frame with the target that it is rendered by, and a hash of what that made. */
  readonly frame: string;
  readonly hash: string;
  /** Whether it is this very target: then `colour` is the leave-one-out error, and nothing else can be told. */
  readonly own: boolean;
}

/** How a frame's colours have moved since the frame with the target. */
export interface DriftFromTarget {
  /** Id of the frame with the target. */
  readonly frame: string;
  /** What was read on the target itself; null where nothing was. */
  readonly target: ColourFigures | null;
  /** Null where the two cannot be compared: nothing in them stands still, say. */
  readonly drift: ColourDrift | null;
}

/** How sharp the reference is, and where this frame is not while it is. */
export interface SharpReference extends Pick<SharpFigures, 'source' | 'atSpot' | 'blur'> {
  /** The softest part of the frame that is sharp in the reference, with the middle of the widths in both, px; or null. */
  readonly softPart: SoftPart | null;
}

export interface SoftPart extends ShareBox {
  /** Null where no edge can be read any more. */
  readonly widthPx: number | null;
  readonly referencePx: number;
}

/** What readings of a reference say to those of a frame. */
export interface AgainstReference {
  /** The reference's id. */
  readonly frame: string;
  readonly sharp: SharpReference;
  /** Difference of the light, what the dials explain taken off; null where it cannot be told. */
  readonly light: LightDifference | null;
  /** Whether stripes run across the reference too; null where it is read from another kind of file. */
  readonly striped: boolean | null;
}

/** The rest of the readings: large, and looked at one frame at a time. */
export interface ReadingDetail {
  readonly map: SharpMap;
  readonly histogram: StopsHistogram;
  readonly light: LightMap;
  readonly profile: EdgeProfile | null;
  readonly lost: LostMap;
  /** Patches of the target, all 24 in order; null where none was read. */
  readonly patches: readonly PatchReading[] | null;
  readonly colours: ColourMap | null;
}
