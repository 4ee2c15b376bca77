import type { Finding } from '../../facts/index.ts';
import type { CopiesReport } from './verify-copies.ts';

/**
 * Whether a second place holds what cannot be read of the home's journal: nothing where all of it can be read, or where a
 * place said so itself (`copy.holds-journal`); else that none does.
 */
export function journalRescue(
  found: readonly Finding[],
  copies: readonly Pick<CopiesReport, 'findings'>[],
): Finding[] {
  const isDamaged = found.some(({ code }) => code === 'keep.journal-damaged');
  const isHeld = copies.some(({ findings }) => findings.some(({ code }) => code === 'copy.holds-journal'));
  return isDamaged && !isHeld ? [{ code: 'copy.none-holds-journal', args: {} }] : [];
}

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
