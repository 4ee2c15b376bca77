/** Before this much was done the speed says nothing: a share of all, and a time, ms. */
const shareToTell = 0.01;
const msToTell = 1_000;

/** How long the rest takes at the speed so far, ms; null while that says nothing. */
export function msToGo(doneBytes: number, allBytes: number, tookMs: number): number | null {
  if (doneBytes <= 0 || tookMs < msToTell || doneBytes < allBytes * shareToTell) return null;
  return Math.max(0, Math.round((tookMs / doneBytes) * (allBytes - doneBytes)));
}
