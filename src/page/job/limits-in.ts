import type { Job } from '../../contract/index.ts';
import type { ToleranceName } from '../../facts/index.ts';

export type Tolerances = Job['tolerances'];

export interface Limits {
  readonly good: number;
  readonly bad: number;
}

/** The limits with one of them put, or taken away. */
export function withLimits(tolerances: Tolerances, name: ToleranceName, limits: Limits | null): Tolerances {
  const { [name]: _before, ...others } = tolerances;
  return limits === null ? others : { ...others, [name]: limits };
}

/** Figures beyond this are refused by the rules: nothing is measured above it. */
const limitMax = 1_000_000;

/**
 * The limits in two fields as people fill them in, a decimal comma understood; null where both are empty. A text says what is
 * wrong: the name of its label.
 */
export function limitsIn(
  goodText: string,
  badText: string,
): Limits | null | 'bothWanted' | 'goodBelowBad' | 'noNumber' {
  const [good, bad] = [figureIn(goodText), figureIn(badText)];
  if (good === null && bad === null) return null;
  if (Number.isNaN(good) || Number.isNaN(bad)) return 'noNumber';
  if (good === null || bad === null) return 'bothWanted';
  return good <= bad ? { good, bad } : 'goodBelowBad';
}

/** Null for an empty text, NaN for one that is no figure from 0 to the largest there may be. */
function figureIn(text: string): number | null {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return null;
  const figure = /^\d*\.?\d+$/.test(plain) ? Number(plain) : Number.NaN;
  return figure <= limitMax ? figure : Number.NaN;
}
