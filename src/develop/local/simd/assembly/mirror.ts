/** Within 0 … count - 1, by reflection at the first and the last. */
export function mirrored(at: i32, count: i32): i32 {
  if (at >= 0 && at < count) return at;
  const period = max(1, 2 * (count - 1));
  const within = ((at % period) + period) % period;
  return within < count ? within : period - within;
}
