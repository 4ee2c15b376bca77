import { useCallback, useMemo } from 'react';
import type { Job } from '../../contract/index.ts';
import { contactLabels } from '../../words/index.ts';
import type { Call } from '../choices/use-call.ts';
import { patchShot } from '../link/index.ts';
import { jobOf, type PageState } from '../state/index.ts';
import { OrderQueue } from './state/order-queue.ts';
import { movedBy, movedOnto, reordered, type SheetGroup } from './state/sheet-groups.ts';

export interface Ordering {
  /** Which ways a chosen frame can go; null where it is none. */
  readonly ways: (id: string) => { readonly earlier: boolean; readonly later: boolean } | null;
  readonly step: (id: string, by: -1 | 1) => void;
  /** Puts a chosen frame where another of its shot stands. */
  readonly put: (id: string, onto: string) => void;
}

/** The order of a shot's chosen frames (`inChosenOrder`, facts): guests, the contact sheet and deliveries have them so. */
export function useOrder(
  { jobs }: PageState,
  code: string,
  groups: readonly SheetGroup[],
  run: Call['run'],
): Ordering {
  const job: Job | null = jobOf(jobs, code);
  const groupOf = useCallback(
    (id: string) =>
      groups.find(({ heroes, selects }) => [...heroes, ...selects].some((frame) => frame.id === id)) ?? null,
    [groups],
  );
  const queue = useMemo(
    () =>
      new OrderQueue(async (shot, order, version) => {
        const answer = await patchShot(code, shot, { order: [...order] }, version);
        return answer.version;
      }),
    [code],
  );
  /** `change`: from the ids of the frame's own kind, as they stand, to how they are to stand; null for no change. */
  const order = useCallback(
    (id: string, change: (same: readonly string[]) => string[] | null) => {
      const group = groupOf(id);
      if (job === null || group === null || group.id === '') return;
      const drawn = { order: group.order, version: job.version };
      const standing = queue.standing(group.id, drawn);
      const same = new Set(partOf(group, id));
      const moved = change(standing.filter((each) => same.has(each)));
      if (moved === null) return;
      // Two who order at once: the second is told, and sees what the first did.
      void run(() => queue.ask(group.id, reordered(standing, moved), drawn), contactLabels.order);
    },
    [job, groupOf, queue, run],
  );
  return {
    ways: (id) => {
      const group = groupOf(id);
      if (group === null || group.id === '') return null;
      const same = partOf(group, id);
      return { earlier: movedBy(same, id, -1) !== null, later: movedBy(same, id, 1) !== null };
    },
    step: (id, by) => order(id, (same) => movedBy(same, id, by)),
    put: (id, onto) =>
      order(id, (same) => (id === onto || !same.includes(onto) ? null : movedOnto(same, id, onto))),
  };
}

/** Heroes stand before selects, so a frame moves among its own kind. */
function partOf({ heroes, selects }: SheetGroup, id: string): string[] {
  const part = heroes.some((frame) => frame.id === id) ? heroes : selects;
  return part.map((frame) => frame.id);
}
