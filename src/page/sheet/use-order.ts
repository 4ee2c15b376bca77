import { useCallback } from 'react';
import type { Job } from '../../contract/index.ts';
import type { Call } from '../choices/use-call.ts';
import { patchShot } from '../link/index.ts';
import { jobOf, type PageState } from '../state/index.ts';
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
  const order = useCallback(
    (shot: string, ids: readonly string[]) => {
      if (job === null || shot === '') return;
      // Two who order at once: the second is told, and sees what the first did.
      void run(() => patchShot(job.code, shot, { order: [...ids] }, job.version));
    },
    [job, run],
  );
  return {
    ways: (id) => {
      const group = groupOf(id);
      if (group === null || group.id === '') return null;
      const same = partOf(group, id);
      return { earlier: movedBy(same, id, -1) !== null, later: movedBy(same, id, 1) !== null };
    },
    step: (id, by) => {
      const group = groupOf(id);
      const moved = group === null ? null : movedBy(partOf(group, id), id, by);
      if (group === null || moved === null) return;
      order(group.id, reordered(group.order, moved));
    },
    put: (id, onto) => {
      const group = groupOf(id);
      if (group === null || id === onto || !partOf(group, id).includes(onto)) return;
      order(group.id, reordered(group.order, movedOnto(partOf(group, id), id, onto)));
    },
  };
}

/** Heroes stand before selects, so a frame moves among its own kind. */
function partOf({ heroes, selects }: SheetGroup, id: string): string[] {
  const part = heroes.some((frame) => frame.id === id) ? heroes : selects;
  return part.map((frame) => frame.id);
}
