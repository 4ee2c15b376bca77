import { readMetadataSheetText } from './metadata-sheet.ts';

/**
 * The text of a sheet after shots got other names: what is said of a shot goes along with its name. `renamed`: old names to new ones;
 * `stay`: names that other shots have still, who keep what is said of them. Where something is said of a new name already nothing is
 * put in its place, and the old name keeps its own. The same text where nothing moves, and where it is no sheet.
 */
export function withShotsRenamed(
  text: string,
  renamed: ReadonlyMap<string, string>,
  stay: ReadonlySet<string>,
): string {
  const read = readMetadataSheetText(text);
  if (read.sheet === null) return text;
  const { shots, ...said } = read.sheet;
  const entries = Object.entries(shots);
  const leaves = ([name]: (typeof entries)[number]): boolean => renamed.has(name) && !stay.has(name);
  // Two shots may have swapped their names.
  const next = new Map(entries.filter((entry) => !leaves(entry)));
  let moved = false;
  for (const [name, words] of entries) {
    const to = renamed.get(name);
    if (to === undefined) continue;
    if (!next.has(to)) {
      next.set(to, words);
      moved = true;
    } else if (!next.has(name)) next.set(name, words);
  }
  return moved ? JSON.stringify({ ...said, shots: Object.fromEntries(next) }, null, 2) : text;
}
