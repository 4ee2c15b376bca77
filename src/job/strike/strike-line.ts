import { type Finding, type Question, type StrikeCost, strikeCosts } from '../../facts/index.ts';
import type { Explained } from './strike-state.ts';

/** One condition that is not met, or that somebody took upon themselves. */
export interface StrikeLine {
  /** The same as long as what it says is the same. */
  readonly key: string;
  readonly cost: StrikeCost;
  readonly finding: Finding;
  /** Why, in the words of a verdict. */
  readonly because: Finding | null;
  readonly shot: string | null;
  readonly frame: string | null;
  /** The verdict to be accepted, where it is one. */
  readonly question: Question | null;
  /** What counts numbers, where it is about numbers. */
  readonly counting: { readonly camera: string; readonly prefix: string } | null;
  /** Whether somebody may take it upon themselves here, by name and with a reason. */
  readonly explainable: boolean;
  readonly accepted: Pick<Explained, 'name' | 'reason'> | null;
}

export type LineOf = Pick<StrikeLine, 'cost' | 'finding'> & Partial<StrikeLine>;

/** A line with what is left out filled in; its key is its code and its figures. */
export function lineOf(line: LineOf): StrikeLine {
  const { code, args } = line.finding;
  const about = [line.shot, line.frame, line.question, ...Object.values(args)].filter(
    (part) => part !== null && part !== undefined,
  );
  return {
    key: [code, ...about].join(' '),
    because: null,
    shot: null,
    frame: null,
    question: null,
    counting: null,
    explainable: false,
    accepted: null,
    ...line,
  };
}

/** How much worse one verdict is than another, for the order of lines of one cost. */
const weight: Readonly<Record<string, number>> = {
  'strike.no-shots': 0,
  'strike.no-frames': 0,
  'strike.no-hero': 1,
  'strike.too-few-selects': 2,
  'strike.verdict-bad': 3,
  'strike.verdict-unknown': 4,
  'strike.verdict-doubt': 5,
  'strike.no-target': 6,
  'strike.damaged': 0,
  'strike.broken-off': 1,
  'strike.arriving': 2,
  'strike.gap': 3,
  'strike.numbers-missing': 4,
  'strike.number-behind': 5,
  'strike.number-wanted': 6,
  'strike.no-numbers': 7,
};

/** Worst first: what costs a reshoot, then what a card may still hold, then words, then copies. */
export function worstFirst(lines: readonly StrikeLine[]): StrikeLine[] {
  const rank = ({ cost, finding }: StrikeLine): number =>
    strikeCosts.indexOf(cost) * 100 + (weight[finding.code] ?? 50);
  return [...lines].sort((a, b) => rank(a) - rank(b));
}
