import type { Frame, Job } from '../../../contract/index.ts';
import { inChosenOrder, isOfTheShoot, type ShotlessReason } from '../../../facts/index.ts';
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
  /** Ids of every hero and select of the shot in that order, whatever is asked for: an order is said of all of them. */
  readonly order: readonly string[];
  /** All of them, heroes and selects too: they stay where they were taken. */
  readonly frames: readonly Frame[];
  /** How many there are of the shot, whatever is asked for. */
  readonly whole: number;
  /** Of frames of no shot: how many are for which reason. Empty for a shot, and where they lie all together. */
  readonly shotless: ReadonlyMap<ShotlessReason, number>;
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
 * were taken from the list, and of none. A shot without frames has its place behind all of them, while nothing is asked for.
 */
export function sheetGroups(
  job: SheetJob,
  frames: readonly Frame[],
  { filter, sort, byShot }: SheetWish,
): SheetGroup[] {
  const own = frames.filter((frame) => frame.job === job.code && isOfTheShoot(frame));
  const asked = passes(
    filter,
    new Map([...job.shots, ...(job.takenAway ?? [])].map(({ id, name }) => [id, name])),
  );
  const inSort = (some: Frame[]): Frame[] => (sort === 'time' ? some : some.sort(comparers[sort]));
  if (!byShot) {
    const shown = inSort(own.filter(asked));
    return own.length === 0
      ? []
      : [
          {
            id: '',
            name: '',
            heroes: [],
            selects: [],
            order: [],
            frames: shown,
            whole: own.length,
            shotless: new Map(),
          },
        ];
  }
  const byId = new Map<string, { whole: number; shown: Frame[]; chosen: Frame[] }>();
  for (const frame of own) {
    const id = frame.shot ?? '';
    const group = byId.get(id) ?? { whole: 0, shown: [], chosen: [] };
    group.whole += 1;
    if (liesAbove(frame)) group.chosen.push(frame);
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
  const inList = [...listed, ...away, ...strange, none];
  const isEmpty = ({ id }: { readonly id: string }): boolean => !byId.has(id);
  return [...inList.filter((shot) => !isEmpty(shot)), ...inList.filter(isEmpty)].flatMap(
    ({ id, name, order }) => {
      const { whole, shown, chosen } = byId.get(id) ?? { whole: 0, shown: [], chosen: [] };
      if (shown.length === 0 && (whole > 0 || !listed.some((shot) => shot.id === id) || isFiltered(filter)))
        return [];
      const inOrder = inChosenOrder(chosen, order);
      const heroes = inOrder.filter(({ mark }) => mark === 'hero');
      const selects = inOrder.filter(({ mark }) => mark === 'select');
      return [
        {
          id,
          name,
          heroes: heroes.filter(asked),
          selects: selects.filter(asked),
          order: [...heroes, ...selects].map((frame) => frame.id),
          frames: inSort(shown),
          whole,
          shotless: id === '' ? shotlessIn(shown) : new Map(),
        },
      ];
    },
  );
}

/** Heroes and selects lie above the others too. */
function liesAbove({ mark }: Frame): boolean {
  return mark === 'hero' || mark === 'select';
}

function shotlessIn(frames: readonly Frame[]): ReadonlyMap<ShotlessReason, number> {
  const counts = new Map<ShotlessReason, number>();
  for (const { shotless } of frames)
    if (shotless !== null) counts.set(shotless, (counts.get(shotless) ?? 0) + 1);
  return counts;
}

/** The order with some of its ids in another order among themselves: those between them, hidden ones too, stay where they stand. */
export function reordered(order: readonly string[], some: readonly string[]): string[] {
  const inSome = new Set(some);
  const next = some.values();
  return order.map((id) => (inSome.has(id) ? (next.next().value ?? id) : id));
}

/** The order with one frame taken out and put where another stands: before it on the way back, behind it on the way forth. */
export function movedOnto(order: readonly string[], id: string, onto: string): string[] {
  const moved = order.filter((each) => each !== id);
  moved.splice(order.indexOf(onto), 0, id);
  return moved;
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
