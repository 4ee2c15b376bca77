export interface WebProblem {
  readonly status: number;
  readonly title: string;
  /** What a person can do, one sentence, or null where nothing helps. */
  readonly cure: string | null;
}
