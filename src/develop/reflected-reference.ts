/**
 * A place beyond the first or last of `count` samples, by reflection at that sample: what the references read where
 * kernels use `mirrored`, written apart from it, so that a slip in either shows.
 */
export function reflected(at: number, count: number): number {
  if (count === 1) return 0;
  if (at < 0) return reflected(-at, count);
  return at < count ? at : reflected(2 * (count - 1) - at, count);
}
