/** base: what every room may use. Values only; no file, socket, clock or randomness. */
export {
  type CounterGap,
  counterGaps,
  counterMax,
  countingOf,
  gapMax,
  type NumberedFrame,
  namePrefix,
  numberAfter,
  numbersOn,
} from './counter-gaps.ts';
export { dayMoment, shutterLagMsMax } from './day-moment.ts';
export { errorCode, errorMessage, SetsideError, type SetsideErrorOptions } from './errors.ts';
export { exhaustive } from './exhaustive.ts';
export { legibleName } from './legible-name.ts';
export { median } from './median.ts';
export { percentile } from './percentile.ts';
export { type CivilTime, civilToEpochMs, type EpochMs, epochMsToRfc3339 } from './time.ts';
export { GiB, KiB, MiB } from './units.ts';
export { isXmpName } from './xmp-name.ts';
