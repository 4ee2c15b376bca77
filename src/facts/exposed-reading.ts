import type { LightSourceName } from './sharp-reading.ts';

/** One channel of the sensor (or of a finished picture), before any colour is made of it. */
export interface ChannelReading {
  /** Share of its samples at saturation, %. */
  readonly saturatedPercent: number;
  /**
   * Stops from its bright end (the level that one sample in a thousand lies above) up to saturation; 0 where that is lost.
   */
  readonly headroomStops: number;
  /** Share of its samples whose light is not told from noise, %; of a finished picture: at code 0. */
  readonly underNoisePercent: number;
}

/** Where the histogram of stops begins, how wide a step is and how many there are: -10 … +6 in thirds of a stop. */
export const stopsFrom = -10;
export const stepStops: number = 1 / 3;
export const stopSteps = 48;

/** Share of a channel's samples by stops about 18 % grey, see {@link stopsFrom}, %. */
export interface StopsHistogram {
  readonly red: readonly number[];
  readonly green: readonly number[];
  readonly blue: readonly number[];
}

/** Light of parts of the picture, in stops about 18 % grey, two decimals; null where it is lost or not told from noise. */
export interface LightMap {
  readonly columns: number;
  readonly rows: number;
  readonly stops: readonly (number | null)[];
}

/** Stripes of light that run along the sensor's rows: lamps that pulse with the mains under an electronic shutter. */
export interface Banding {
  /** From dark to bright, EV. */
  readonly ev: number;
  /** Stripes over the height of the sensor. */
  readonly cycles: number;
  /** Null where the time from row to row is not known. */
  readonly hertz: number | null;
}

/** What lies behind the subject, as far as it reaches the border of the picture. */
export interface BackdropReading {
  /** Share of the backdrop at full white, %. */
  readonly whitePercent: number;
  /** Brightest against darkest corner, EV; white ones count as equal. */
  readonly unevenEv: number;
}

/** Figures of exposure; what plots are made of is in {@link ExposedReading}. */
export interface ExposedFigures {
  readonly source: LightSourceName;
  readonly red: ChannelReading;
  readonly green: ChannelReading;
  readonly blue: ChannelReading;
  /**
   * Share of the picture where a channel has lost its light, in areas, %. Small specular islands are told apart.
   */
  readonly saturatedPercent: number;
  readonly islandsPercent: number;
  /** Of {@link saturatedPercent}, what reaches the border: no fault where the backdrop was asked to be white. */
  readonly atBorderPercent: number;
  /** Of the channel that has the least. */
  readonly headroomStops: number;
  readonly underNoisePercent: number;
  /** Median of the light map. Null where no part could be measured. */
  readonly middleStops: number | null;
  readonly banding: Banding | null;
  readonly backdrop: BackdropReading;
}

export interface ExposedReading extends ExposedFigures {
  readonly histogram: StopsHistogram;
  readonly light: LightMap;
  readonly lost: LostMap;
}

/** What a cell of {@link LostMap} adds up: channels with a sample at saturation in it. */
export const lostBits = { red: 1, green: 2, blue: 4 } as const;

/**
 * Where light is lost, cell by cell of the upright picture, in runs along its rows: how many cells, then which channels
 * (`lostBits` added up), and again. The runs cover all cells.
 */
export interface LostMap {
  readonly columns: number;
  readonly rows: number;
  readonly runs: readonly number[];
}

/** How a frame's light differs from another's. */
export interface LightDifference {
  /** Median over the parts of the picture, EV; positive is brighter. */
  readonly ev: number;
  /** How far parts differ from that, median, EV: much where the scene has changed. */
  readonly spreadEv: number;
}

/** A frame's light among those before it, taken with equal settings. */
export interface LightTrend {
  /** From the running median: what is sudden shows here. */
  readonly fromMedian: LightDifference;
  /** From the first of them: what is slow shows here. */
  readonly fromFirst: LightDifference;
  /** How many frames before it; >= 2. */
  readonly frames: number;
}
