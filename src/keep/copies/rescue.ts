import type { Finding } from '../../facts/index.ts';
import type { CopiesReport } from './verify-copies.ts';

/**
 * What is left of each original that verifying found bad: the place whose copy was read and is as received
 * (`copy.holds-original`), or that none is (`copy.none-holds-original`).
 */
export function rescueFindings(
  bad: ReadonlySet<string>,
  copies: readonly Pick<CopiesReport, 'folder' | 'holds'>[],
): Finding[] {
  return [...bad].map((original) => {
    const place = copies.find(({ holds }) => holds.includes(original));
    return place === undefined
      ? { code: 'copy.none-holds-original', args: { original } }
      : { code: 'copy.holds-original', args: { original, folder: place.folder } };
  });
}
