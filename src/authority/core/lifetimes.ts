import type { EpochMs } from '../../base/index.ts';

const dayMs = 86_400_000;

/**
 * How long certificates live.
 *
 * Both begin two days in the past, for cameras whose clock is behind (a wrong zone or date line is within that). The root
 * lasts ten years, since importing it is work for a person. A server certificate lasts 397 days, below every limit that
 * systems set for them, and is renewed two months before its end: a camera whose clock runs ahead notices nothing.
 */
const backdatedMs = 2 * dayMs;
const rootMs = 3652 * dayMs;
const serverMs = 397 * dayMs;
const renewBeforeMs = 60 * dayMs;

export interface Lifetime {
  readonly notBeforeMs: EpochMs;
  readonly notAfterMs: EpochMs;
}

export function rootLifetime(nowMs: EpochMs): Lifetime {
  return { notBeforeMs: nowMs - backdatedMs, notAfterMs: nowMs + rootMs };
}

/** Never longer than its root's. */
export function serverLifetime(nowMs: EpochMs, root: Lifetime): Lifetime {
  return {
    notBeforeMs: Math.max(nowMs - backdatedMs, root.notBeforeMs),
    notAfterMs: Math.min(nowMs + serverMs, root.notAfterMs),
  };
}

/** Whether a certificate is good now and for some time; false also where the clock was wrong when it was made. */
export function lastsAWhile({ notBeforeMs, notAfterMs }: Lifetime, nowMs: EpochMs): boolean {
  return notBeforeMs <= nowMs && nowMs < notAfterMs - renewBeforeMs;
}
