import type {
  ExposedFigures,
  Figure,
  Finding,
  Judgement,
  LightDifference,
  LightTrend,
  PlaceReading,
  SettingChange,
  Tolerances,
} from '../../facts/index.ts';

/** What Exposed is judged by. */
export interface ExposedFacts {
  readonly reading: ExposedFigures;
  readonly tolerances: Tolerances;
  /** Of the light from the reference's, what the dials explain taken off; null where there is none to compare with. */
  readonly fromReference: LightDifference | null;
  /** Whether stripes run across the reference too; null or left out where there is none to compare with. */
  readonly referenceStriped?: boolean | null;
  /** Among the frames before it with equal settings; null where there are too few. */
  readonly trend: LightTrend | null;
  /** Whether the delivery asks for a white backdrop. */
  readonly whiteBackdrop: boolean;
  /** How it lies on the reference: what cannot be laid on it is another scene. Null where there is none. */
  readonly shift: PlaceReading['shift'];
  /** What the camera was set otherwise to than in the reference; nothing where that is meant (a bracket, a test). */
  readonly settings: readonly SettingChange[];
  readonly previous: Judgement | null;
}

/** One thing found, with how grave it is. */
export interface Weighed {
  readonly judgement: 'good' | 'doubt' | 'bad';
  readonly finding: Finding;
  /** A setting has none. */
  readonly figure?: Figure;
}
