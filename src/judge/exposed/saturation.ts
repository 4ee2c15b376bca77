/** Nearer to the white level than this a sensor may really end, share of the way from black. */
const spikeFrom = 0.8;
/** A heap at the last value that occurs is saturation where it has so many samples, and so many times its neighbours'. */
const spikeCount = 64;
const spikeTimes = 8;
const neighbours = 32;

/**
 * The value at which the samples of a filter place end: the white level that the file states, or a value below it on which
 * samples heap up as the last one: some sensors saturate earlier than their file says.
 */
export function saturationValue(counts: ArrayLike<number>, black: number, whiteLevel: number): number {
  let last = Math.min(counts.length - 1, 65_535);
  while (last > 0 && (counts[last] ?? 0) === 0) last--;
  if (last >= whiteLevel || last < black + spikeFrom * (whiteLevel - black)) return whiteLevel;
  let below = 0;
  for (let value = last - neighbours; value < last; value++) below += counts[value] ?? 0;
  const heap = counts[last] ?? 0;
  return heap >= spikeCount && heap > (spikeTimes * below) / neighbours ? last : whiteLevel;
}
