import type { Look } from '../../../look/index.ts';
import type { LookNumber } from '../state/look-number.ts';

/** What an instrument sees of the look, and what it may do to it. */
export interface Hand {
  readonly look: Look;
  /** One number, while it is being turned; `letGo` ends the turn. */
  readonly turn: (number: LookNumber, value: number) => void;
  /** Parts of the look at once: one step back. With a name, all of one turn together are. */
  readonly change: (parts: Partial<Look>, turn?: string) => void;
  readonly letGo: () => void;
}
