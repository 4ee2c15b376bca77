/** One figure, measured side by side with a reference in the same run. */
export interface BenchResult {
  readonly name: string;
  /** Medians, in `unit`. */
  readonly ours: number;
  readonly reference: number | null;
  readonly referenceName: string;
  /** ours / reference; null where there is no reference. */
  readonly ratio: number | null;
  /** The ratio asked for, or the figure itself where there is no reference. */
  readonly goal: number;
  readonly better: 'lower' | 'higher';
  readonly unit: string;
  readonly runs: readonly Run[];
  /** What a reader must know to read the figure. */
  readonly note: string;
  /** Processes that wanted to run when it began (the system's load average over a minute): who else was at work. */
  readonly load?: number;
  /** The code that was measured, and when (RFC 3339): figures that are not measured again keep theirs. */
  readonly commit?: string;
  readonly date?: string;
}

/** One pair of measurements; `reference` is null where there is none. */
export interface Run {
  readonly ours: number;
  readonly reference: number | null;
}

export interface Bench {
  readonly name: string;
  /** What is measured, in a few words. */
  readonly about: string;
  /** Measures; `rounds` pairs, ours and reference in turn. */
  measure(rounds: number, say: (line: string) => void): Promise<BenchResult>;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const high = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? high : ((sorted[middle - 1] ?? high) + high) / 2;
}

/** The result of interleaved pairs: medians, and the median of the pairs' own ratios. */
export function resultOf(
  facts: Omit<BenchResult, 'ours' | 'reference' | 'ratio' | 'runs'>,
  runs: readonly Run[],
): BenchResult {
  const references = runs.flatMap(({ reference }) => (reference === null ? [] : [reference]));
  const ratios = runs.flatMap(({ ours, reference }) => (reference === null ? [] : [ours / reference]));
  return {
    ...facts,
    ours: median(runs.map(({ ours }) => ours)),
    reference: references.length === 0 ? null : median(references),
    ratio: ratios.length === 0 ? null : median(ratios),
    runs,
  };
}

/** Whether the goal is met. */
export function meetsGoal({ ours, ratio, goal, better }: BenchResult): boolean {
  const figure = ratio ?? ours;
  return better === 'lower' ? figure <= goal : figure >= goal;
}
