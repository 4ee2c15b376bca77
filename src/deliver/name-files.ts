import { nameKey, safeStem } from './file-name.ts';
import { fileNameBytesMax } from './limits.ts';
import { fillTemplate, type NameValues, type Placeholder } from './name-template.ts';

export interface NamedFile {
  /** With its ending. */
  readonly name: string;
  /** Placeholders that were left out, since nobody knows what stands there. */
  readonly missing: readonly Placeholder[];
  /** Whether a number was put behind it, since another one has the name without. */
  readonly numbered: boolean;
}

/**
 * A name for each frame, in their order; no two differ only in case or Unicode form, and none is one of `taken`, with which the
 * folder already holds. The same frames in the same order have the same names. `extension` has its dot.
 */
export function nameFiles(
  template: string,
  frames: readonly NameValues[],
  extension: string,
  taken: Iterable<string> = [],
): readonly NamedFile[] {
  const used = new Set([...taken].map(nameKey));
  // Where the next number is looked for; else a thousand frames of one name would be half a million comparisons.
  const next = new Map<string, number>();
  return frames.map((values) => {
    const { text, missing } = fillTemplate(template, values);
    const stem = safeStem(text, extension);
    const first = `${stem}${extension}`;
    const key = nameKey(first);
    let name = first;
    let number = next.get(key) ?? 2;
    while (used.has(nameKey(name))) {
      const ending = `-${number}${extension}`;
      name = `${safeStem(stem, ending, fileNameBytesMax)}${ending}`;
      number += 1;
    }
    next.set(key, number);
    used.add(nameKey(name));
    return { name, missing, numbered: name !== first };
  });
}
