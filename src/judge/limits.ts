import type { Judgement, Tolerance, ToleranceName, Tolerances } from '../facts/index.ts';

/** Limits where nobody set any (common practice, no source). */
export const usualTolerances = {
  /** A sharp lens stopped down gives 1.5 to 2.5 px on a raw's green; twice as much is seen at a print's size. */
  edgeWidthPx: { good: 2.8, bad: 4.5 },
  saturatedPercent: { good: 0.1, bad: 1 },
  /** Strobes vary by some hundredths of a stop; a sixth is seen between two pictures side by side. */
  lightEv: { good: 0.15, bad: 0.5 },
  /** A six-hundredth of the width of a 24-megapixel frame: two pictures side by side are seen to differ from there on. */
  shiftPx: { good: 10, bad: 40 },
  /** Moves the ends of that frame by as much as the shift. */
  rotationDeg: { good: 0.2, bad: 0.8 },
  scalePercent: { good: 0.4, bad: 1.6 },
  /** A camera's own matrix leaves 2 to 4 over a target; from 6 on a client sees it beside the thing itself. */
  meanDeltaE00: { good: 4, bad: 7 },
  /** The worst patch is mostly a blue or a cyan at the edge of what three channels can tell. */
  maxDeltaE00: { good: 10, bad: 16 },
  /** About what a weak colour-compensating filter does to a grey; twice as much is seen on white. */
  neutralDuv: { good: 0.004, bad: 0.01 },
} as const satisfies Partial<Record<ToleranceName, Tolerance>>;

/** The limits in force: a person's where there are any. */
export function limitsOf(tolerances: Tolerances, name: keyof typeof usualTolerances): Tolerance {
  return tolerances[name] ?? usualTolerances[name];
}

/** A verdict holds on to what it was by so much of the limit, so that it does not flicker about it. */
const holdShare = 0.05;

/**
 * `good` up to the one limit, `bad` above the other, `doubt` between. `error` (same unit, standard deviation) has to fit in
 * as well: what may lie beyond a limit is not yet on its good side, and not yet on its bad side. `previous`: what was said
 * of the same frame before, or null.
 */
export function judgeLimit(
  value: number,
  error: number,
  { good, bad }: Tolerance,
  previous: Judgement | null,
): 'good' | 'doubt' | 'bad' {
  const goodUpTo = good * (previous === 'good' ? 1 + holdShare : 1);
  const badFrom = bad * (previous === 'bad' ? 1 - holdShare : 1);
  if (value - error > badFrom) return 'bad';
  return value + error <= goodUpTo ? 'good' : 'doubt';
}

/**
 * A bound that decides whether something counts at all, moved away from what was said before: `counted` tells whether it
 * counted then; null where nothing was said. For what counts below its bound; divide by {@link heldBound} where it counts above.
 */
export function heldBound(bound: number, counted: boolean | null): number {
  if (counted === null) return bound;
  return bound * (counted ? 1 + holdShare : 1 - holdShare);
}

const order: Readonly<Record<Judgement, number>> = { bad: 0, doubt: 1, unknown: 2, good: 3 };

/** The worst of several, for which `good` is what nothing is said against. */
export function worstOf(judgements: readonly Judgement[]): Judgement {
  return judgements.reduce<Judgement>((worst, each) => (order[each] < order[worst] ? each : worst), 'good');
}

/** How grave a judgement is: 0 is the worst. */
export function gravityOf(judgement: Judgement): number {
  return order[judgement];
}
