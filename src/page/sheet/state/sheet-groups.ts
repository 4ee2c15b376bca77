import type { Frame, Job } from '../../../contract/index.ts';
import { comparers, isFiltered, passes, type SheetFilter, type SheetSort } from './sheet-filter.ts';

/** The frames of a shot as they lie on its sheet. */
export interface SheetGroup {
  /** Id of the shot; empty for frames of none, or of all together. */
  readonly id: string;
  /** Empty where the group is no shot. */
  readonly name: string;
  /** Marked hero, in the order somebody gave them; printed large. */
  readonly heroes: readonly Frame[];
  /** Marked select, in that order. */
  readonly selects: readonly Frame[];
  /** All of them, heroes and selects too: they stay where they were taken. */
  readonly frames: readonly Frame[];
  /** How many there are of the shot, whatever is asked for. */
  readonly whole: number;
}

export interface SheetWish {
  readonly filter: SheetFilter;
  readonly sort: SheetSort;
  /** Under their shots, or all together. */
  readonly byShot: boolean;
}

/** Only what orders frames is read of a job; null for the tray. */
export type SheetJob = Pick<Job, 'code'> & {
  readonly shots: readonly Pick<Job['shots'][number], 'id' | 'name' | 'order'>[];
  readonly takenAway?: Job['takenAway'];
};

/**
 * The frames of a job (given in the order of the day) under its shots, in the order of the list; behind them those of shots that
 * were taken from the list, and of none. A shot without frames has its place while nothing is asked for.
 */
export function sheetGroups(
  job: SheetJob,
  frames: readonly Frame[],
  { filter, sort, byShot }: SheetWish,
): SheetGroup[] {
  const own = frames.filter((frame) => frame.job === job.code);
  const asked = passes(filter);
  const inSort = (some: Frame[]): Frame[] => (sort === 'time' ? some : some.sort(comparers[sort]));
  if (!byShot) {
    const shown = inSort(own.filter(asked));
    return own.length === 0
      ? []
      : [{ id: '', name: '', heroes: [], selects: [], frames: shown, whole: own.length }];
  }
  const byId = new Map<string, { whole: number; shown: Frame[] }>();
  for (const frame of own) {
    const id = frame.shot ?? '';
    const group = byId.get(id) ?? { whole: 0, shown: [] };
    group.whole += 1;
    if (asked(frame)) group.shown.push(frame);
    byId.set(id, group);
  }
  const listed = job.shots.map(({ id, name, order }) => ({ id, name, order }));
  const away = (job.takenAway ?? []).map(({ id, name }) => ({ id, name, order: [] as string[] }));
  const known = new Set([...listed, ...away].map(({ id }) => id));
  const strange = [...byId.keys()]
    .filter((id) => id !== '' && !known.has(id))
    .map((id) => ({ id, name: id, order: [] as string[] }));
  const none = { id: '', name: '', order: [] as string[] };
  return [...listed, ...away, ...strange, none].flatMap(({ id, name, order }) => {
    const { whole, shown } = byId.get(id) ?? { whole: 0, shown: [] };
    if (shown.length === 0 && (whole > 0 || !listed.some((shot) => shot.id === id) || isFiltered(filter)))
      return [];
    const chosen = inGivenOrder(shown, order);
    return [
      {
        id,
        name,
        heroes: chosen.filter(({ mark }) => mark === 'hero'),
        selects: chosen.filter(({ mark }) => mark === 'select'),
        frames: inSort(shown),
        whole,
      },
    ];
  });
}

/** Heroes and selects: first those that are named, in that order, then the others as they were taken. */
function inGivenOrder(frames: readonly Frame[], order: readonly string[]): Frame[] {
  const chosen = frames.filter(({ mark }) => mark === 'hero' || mark === 'select');
  if (order.length === 0) return chosen;
  const place = new Map(order.map((id, index) => [id, index]));
  return chosen.sort(
    (one, other) => (place.get(one.id) ?? order.length) - (place.get(other.id) ?? order.length),
  );
}

/** The chosen frames of a group in their order: heroes, then selects. */
export function chosenIds({ heroes, selects }: Pick<SheetGroup, 'heroes' | 'selects'>): string[] {
  return [...heroes, ...selects].map(({ id }) => id);
}

/** The order with one frame taken out and put before another, or to the end for null. */
export function movedBefore(order: readonly string[], id: string, before: string | null): string[] {
  const others = order.filter((each) => each !== id);
  const at = before === null ? -1 : others.indexOf(before);
  return at < 0 ? [...others, id] : [...others.slice(0, at), id, ...others.slice(at)];
}

/** The order with one frame a step on; null where it stands at that end, or is none of them. */
export function movedBy(order: readonly string[], id: string, by: -1 | 1): string[] | null {
  const at = order.indexOf(id);
  const to = at + by;
  if (at < 0 || to < 0 || to >= order.length) return null;
  const moved = [...order];
  moved.splice(at, 1);
  moved.splice(to, 0, id);
  return moved;
}
