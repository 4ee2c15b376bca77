import type { Frame } from '../../../contract/index.ts';
import type { Mark } from '../../../facts/index.ts';

/** A mark that was sent and not answered: nobody knows yet whether the station has it. */
export interface OpenMark {
  readonly wanted: Mark;
  readonly ids: readonly string[];
}

/**
 * The mark to send where somebody chose one. One that all have already is taken away, as on the Set page; but what was sent
 * before without an answer is sent again as it was: who tries again wants the same, and must not undo what went through.
 */
export function markToSend(
  chosen: Mark,
  of: readonly Pick<Frame, 'id' | 'mark'>[],
  open: readonly OpenMark[],
): Mark {
  const again = open.some(({ wanted, ids }) => wanted === chosen && of.every(({ id }) => ids.includes(id)));
  if (again) return chosen;
  return of.every(({ mark }) => mark === chosen) ? 'none' : chosen;
}

/** What is open still when some frames were answered for, whichever call that was: those of other calls stay open. */
export function withoutFrames(open: readonly OpenMark[], answered: readonly string[]): readonly OpenMark[] {
  const known = new Set(answered);
  return open
    .map(({ wanted, ids }) => ({ wanted, ids: ids.filter((id) => !known.has(id)) }))
    .filter(({ ids }) => ids.length > 0);
}

/** How many frames of an open mark do not have it, as they are shown. */
export function leftOf(
  { wanted, ids }: OpenMark,
  byId: { readonly get: (id: string) => Pick<Frame, 'mark'> | undefined },
): number {
  return ids.filter((id) => (byId.get(id)?.mark ?? wanted) !== wanted).length;
}
