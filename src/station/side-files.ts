import type { ContentKind } from '../formats/index.ts';

/**
 * What cameras write beside their pictures: indexes, play lists, logs. From memory; a name that is not here is asked about,
 * since a raw of an unknown maker may have any ending.
 */
const sideFile = /\.(bdm|bin|cpi|ctg|dat|dsc|idx|ind|log|mpl|mrk)$/i;

/** Whether neither the content nor the name gives any hope that a reader of pictures finds something in a file. */
export function saysNothing(kind: ContentKind, name: string): boolean {
  return kind === 'empty' || (kind === 'unknown' && sideFile.test(name));
}
