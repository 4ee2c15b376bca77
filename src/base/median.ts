/** The middle of them; of an even count the mean of the middle two; 0 where there are none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  const low = sorted[(sorted.length - 1) >> 1] ?? 0;
  const high = sorted[sorted.length >> 1] ?? 0;
  return (low + high) / 2;
}
