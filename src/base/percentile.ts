/** Linear between the ranks, 0 for the smallest and 1 for the largest: R. J. Hyndman, Y. Fan (1996), definition 7. */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const rank = share * (sorted.length - 1);
  const low = sorted[Math.floor(rank)] ?? 0;
  const high = sorted[Math.ceil(rank)] ?? low;
  return low + (high - low) * (rank - Math.floor(rank));
}
