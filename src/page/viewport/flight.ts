/** How fast something is scrolled, reckoned from where it was seen when. */
export interface Flight {
  /** Where the stretch that is reckoned began, CSS pixels, and when, ms. */
  readonly top: number;
  readonly atMs: number;
  /** Too fast for a picture to be looked at. */
  readonly flying: boolean;
}

export const atRest: Flight = { top: 0, atMs: Number.NEGATIVE_INFINITY, flying: false };

/** Nobody looks at a picture that is in sight for less than half a second. */
const flyingScreensPerS = 2;
/** Once flying it has to be this slow for pictures to come: one speed for both would flicker. */
const landedScreensPerS = 1;
/** A speed is reckoned over at least so long: a wheel goes by jumps. */
const stretchMs = 80;
/** Without a step for so long it is at rest; a busy machine may be so late with one while it flies. */
const restMs = 120;
const lateMsMax = 1_000;
/** So many screens that all show the same mean that it has landed: counted, since a busy machine shows fewer. */
export const landedScreens = 7;

/** The flight after it was seen at `top` of something `heightCssPx` high. */
export function flightSeen(before: Flight, top: number, heightCssPx: number, atMs: number): Flight {
  const tookMs = atMs - before.atMs;
  if (tookMs > (before.flying ? lateMsMax : restMs) || heightCssPx <= 0) return { top, atMs, flying: false };
  if (tookMs < stretchMs) return before;
  const screensPerS = Math.abs(top - before.top) / heightCssPx / (tookMs / 1000);
  const flying = screensPerS > (before.flying ? landedScreensPerS : flyingScreensPerS);
  return { top, atMs, flying };
}
