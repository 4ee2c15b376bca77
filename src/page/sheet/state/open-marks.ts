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
  open: OpenMark | null,
): Mark {
  const again = open !== null && open.wanted !== 'none' && chosen === open.wanted;
  if (again && of.every(({ id }) => open.ids.includes(id))) return open.wanted;
  return of.every(({ mark }) => mark === chosen) ? 'none' : chosen;
}

/** How many frames of an open mark do not have it, as they are shown. */
export function leftOf(
  { wanted, ids }: OpenMark,
  byId: { readonly get: (id: string) => Pick<Frame, 'mark'> | undefined },
): number {
  return ids.filter((id) => (byId.get(id)?.mark ?? wanted) !== wanted).length;
}
