import type { Finding } from '../../facts/index.ts';
import { nameOf, parentOf } from './path.ts';

/** That a camera took a file out of its folder, which is a view: what came of the file stays where it is. */
export function takenOutFinding(path: string): Finding {
  return { code: 'line.taken-out', args: { name: nameOf(path), path } };
}

/** That a camera renamed or moved what lies in its folder; null where nothing changed. */
export function renamedFinding(from: string, to: string): Finding | null {
  if (from === to) return null;
  const isMoved = parentOf(from) !== parentOf(to);
  const args = isMoved ? { name: from, to } : { name: nameOf(from), to: nameOf(to) };
  return { code: 'line.renamed', args: { ...args, path: from } };
}
