/** A function that tells the milliseconds since it was last asked (first: since it was made). */
export function stopwatch(): () => number {
  let last = performance.now();
  return () => {
    const now = performance.now();
    const elapsed = now - last;
    last = now;
    return elapsed;
  };
}
