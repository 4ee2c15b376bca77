import type { Finding } from '../facts/index.ts';
import { isInMemory } from '../keep/index.ts';

/** What is wrong with where the home lies. A demo keeps nothing that anybody needs; the rest is as with a second place. */
export function homeFindings(
  homePath: string,
  { demo, memoryCounts }: { readonly demo: boolean; readonly memoryCounts: boolean },
  isLost: (folder: string) => boolean = isInMemory,
): Finding[] {
  if (demo || memoryCounts) return [];
  try {
    return isLost(homePath) ? [{ code: 'keep.home-in-memory', args: { home: homePath } }] : [];
  } catch {
    // A home that cannot be asked about has graver troubles, which are told elsewhere.
    return [];
  }
}
