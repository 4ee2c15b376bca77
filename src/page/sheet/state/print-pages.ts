import type { Frame } from '../../../contract/index.ts';
import { inChosenOrder, isForGuests } from '../../../facts/index.ts';
import type { SheetGroup } from './sheet-groups.ts';

/** Frames of one print: twenty-five sheets of A4; more are asked for in parts. */
export const printedMax = 600;

export interface PrintWish {
  /** Only these; null for all that lie on the sheet. */
  readonly only: ReadonlySet<string> | null;
  /** In the shots' own order, as they are handed over; else as they lie on the sheet. */
  readonly inOrder: boolean;
  /** What guests see, as `setside sheet --client` prints. */
  readonly forClient: boolean;
}

/** A shot's frames on paper, each once: heroes large, then all others. */
export interface PrintPart extends Pick<SheetGroup, 'id' | 'name' | 'heroes'> {
  readonly others: readonly Frame[];
}

/** The groups as far as they are printed. `cut`: there are more than one print takes. */
export function printPages(
  groups: readonly SheetGroup[],
  { only, inOrder, forClient }: PrintWish,
): { readonly parts: readonly PrintPart[]; readonly cut: boolean } {
  let left = printedMax;
  let cut = false;
  const wanted = (frame: Frame): boolean =>
    (only === null || only.has(frame.id)) && (!forClient || isForGuests(frame));
  const parts = groups.flatMap(({ id, name, heroes, order, frames }): PrintPart[] => {
    const large = new Set(heroes.map((hero) => hero.id));
    const others = (inOrder ? inChosenOrder(frames, order) : frames).filter((frame) => !large.has(frame.id));
    const all = [...heroes, ...others].filter(wanted);
    const some = all.slice(0, left);
    left -= some.length;
    cut ||= some.length < all.length;
    if (some.length === 0) return [];
    return [
      {
        id,
        name,
        heroes: some.filter((frame) => large.has(frame.id)),
        others: some.filter((frame) => !large.has(frame.id)),
      },
    ];
  });
  return { parts, cut };
}
