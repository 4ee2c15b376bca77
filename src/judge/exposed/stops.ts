import { type ChannelReading, type Mosaic, stepStops, stopSteps, stopsFrom } from '../../facts/index.ts';

/** Scene value of 18 % grey; 1.0 is a white diffuse surface (decision 0008, measuring truly 17). */
export const greyValue = 0.18;

/**
 * Scene value of one step of each filter place: `(value - black) * sceneSteps[place]`. Balanced by the multipliers as shot,
 * so that a grey is as bright in every channel; the channel that saturates first does so at 2 ^ baselineExposureEv.
 */
export function sceneSteps(mosaic: Mosaic): [number, number, number, number] {
  const { asShotMultipliers, whiteLevel, baselineExposureEv } = mosaic;
  const smallest = Math.min(...asShotMultipliers);
  const at = (place: 0 | 1 | 2 | 3): number => {
    const filter = mosaic.filters[place];
    const multiplier = asShotMultipliers[filter === 0 ? 0 : filter === 1 ? 1 : 2];
    return ((multiplier / smallest) * 2 ** baselineExposureEv) / (whiteLevel - mosaic.blackLevels[place]);
  };
  return [at(0), at(1), at(2), at(3)];
}

/** Stops about 18 % grey of a scene value; -Infinity for none. */
export function stopsOf(sceneValue: number): number {
  return sceneValue > 0 ? Math.log2(sceneValue / greyValue) : Number.NEGATIVE_INFINITY;
}

/** Counts of one channel by value, with what is known of that channel. */
export interface ChannelCounts {
  /** `counts[k]`: samples of the k-th value. */
  readonly counts: ArrayLike<number>;
  /** Scene value of the k-th value. */
  readonly sceneValue: (k: number) => number;
  /** First value that counts as saturated. */
  readonly saturated: number;
  /** Values up to this one are not told from noise. */
  readonly underNoise: number;
}

/** Share of samples above the bright end. */
const brightShare = 0.001;

export interface CountedChannel {
  readonly reading: ChannelReading;
  /** Share of samples by stops, % (`StopsHistogram`). */
  readonly histogram: readonly number[];
}

/** Reads one channel out of the counts of its filter places. */
export function readChannel(places: readonly ChannelCounts[]): CountedChannel {
  const histogram = new Float64Array(stopSteps);
  let [total, saturated, underNoise] = [0, 0, 0];
  for (const place of places) {
    for (let k = 0; k < place.counts.length; k++) {
      const count = place.counts[k] ?? 0;
      if (count === 0) continue;
      total += count;
      if (k >= place.saturated) saturated += count;
      if (k <= place.underNoise) underNoise += count;
      const step = Math.floor((stopsOf(place.sceneValue(k)) - stopsFrom) / stepStops);
      const bin = Math.min(stopSteps - 1, Math.max(0, step));
      histogram[bin] = (histogram[bin] ?? 0) + count;
    }
  }
  const percent = (count: number): number => (total === 0 ? 0 : (100 * count) / total);
  return {
    reading: {
      saturatedPercent: percent(saturated),
      headroomStops: headroom(places, total),
      underNoisePercent: percent(underNoise),
    },
    histogram: Array.from(histogram, (count) => Math.round(percent(count) * 1000) / 1000),
  };
}

/** Of the place that has the least: the stops from its bright end to its saturation. */
function headroom(places: readonly ChannelCounts[], total: number): number {
  const allowed = (brightShare * total) / Math.max(1, places.length);
  const stops = places.map(({ counts, sceneValue, saturated }) => {
    let above = 0;
    for (let k = counts.length - 1; k >= 0; k--) {
      above += counts[k] ?? 0;
      if (above <= allowed) continue;
      if (k >= saturated) return 0;
      const value = sceneValue(k);
      return value <= 0 ? Number.POSITIVE_INFINITY : Math.log2(sceneValue(saturated) / value);
    }
    return Number.POSITIVE_INFINITY;
  });
  // A black frame has more headroom than any sensor holds.
  return Math.max(0, Math.min(16, ...stops));
}
