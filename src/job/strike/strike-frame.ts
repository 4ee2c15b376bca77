import type { NumberedFrame } from '../../base/index.ts';
import type {
  Acceptance,
  ArrivalState,
  Finding,
  Judgement,
  Mark,
  Purpose,
  Question,
} from '../../facts/index.ts';

/** What the strike check reads of a frame. */
export interface StrikeFrame extends NumberedFrame {
  readonly shot: string | null;
  readonly mark: Mark;
  readonly purpose: Purpose;
  /** Pictures and whatever else came of it. */
  readonly files: readonly StrikeFile[];
  /** What was judged of it; null where it decides nothing (`isAskedAbout`). */
  readonly judged: JudgedFrame | null;
}

export interface StrikeFile {
  /** As the camera calls it now. */
  readonly name: string;
  readonly state: ArrivalState;
  /** Verified copies on another device, those found bad not among them. */
  readonly copies: number;
}

export interface JudgedFrame {
  /** With its worst finding. */
  readonly verdicts: Readonly<
    Record<Question, { readonly judgement: Judgement; readonly because: Finding | null }>
  >;
  readonly acceptances: readonly Acceptance[];
  /** The frame whose target counts for it; null where there is none. */
  readonly target: string | null;
}

/** Whether the check asks for the verdicts of a frame: it is chosen, or something is wrong with a file of it. */
export function isAskedAbout({ mark, files }: Pick<StrikeFrame, 'mark' | 'files'>): boolean {
  return mark === 'hero' || mark === 'select' || files.some(({ state }) => isBroken(state));
}

export function isBroken(state: ArrivalState): boolean {
  return state === 'broken-off' || state === 'damaged';
}
