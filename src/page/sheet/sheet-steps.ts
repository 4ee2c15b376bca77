import type { SheetGroup } from './state/sheet-groups.ts';

/** Which way a key goes on the sheet. */
export type SheetStep = 'left' | 'right' | 'up' | 'down' | 'first' | 'last';

type Groups = readonly Pick<SheetGroup, 'frames'>[];

/**
 * The frame that a step leads to from another, null at the end of the way. Up and down keep the column; beyond a shot's last
 * row they go to the next shot's first. From nowhere every step leads to the first.
 */
export function stepOnSheet(
  groups: Groups,
  columns: number,
  from: string | null,
  step: SheetStep,
): string | null {
  const lying = groups.flatMap(({ frames }) => frames);
  if (step === 'first') return lying[0]?.id ?? null;
  if (step === 'last') return lying.at(-1)?.id ?? null;
  const at = from === null ? -1 : lying.findIndex(({ id }) => id === from);
  if (at < 0) return lying[0]?.id ?? null;
  if (step === 'left' || step === 'right') return lying[at + (step === 'left' ? -1 : 1)]?.id ?? null;
  return rowBeside(groups, columns, from ?? '', step === 'up' ? -1 : 1);
}

function rowBeside(groups: Groups, columns: number, from: string, by: -1 | 1): string | null {
  const filled = groups.filter(({ frames }) => frames.length > 0);
  const group = filled.findIndex(({ frames }) => frames.some(({ id }) => id === from));
  const frames = filled[group]?.frames ?? [];
  const index = frames.findIndex(({ id }) => id === from);
  const to = index + by * columns;
  if (to >= 0 && to < frames.length) return frames[to]?.id ?? null;
  const isLastRow = Math.floor(index / columns) === Math.floor((frames.length - 1) / columns);
  // The last row may be short: down from above its gap leads to its end.
  if (by > 0 && !isLastRow) return frames.at(-1)?.id ?? null;
  const beside = filled[group + by]?.frames;
  if (beside === undefined) return null;
  const column = index % columns;
  const row = by > 0 ? 0 : Math.floor((beside.length - 1) / columns);
  return (beside[row * columns + column] ?? beside.at(-1))?.id ?? null;
}
