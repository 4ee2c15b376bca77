import { existsSync, renameSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { makeFolderDurably, syncFolder } from './sync-folder.ts';

/**
 * Moves what lies under a name in a second place, and is not what belongs there, into `set-aside/`: nothing is written
 * over, and nothing deleted, in a copy either. A home that gets an original back does the same. Gives where it lies now.
 */
export function putAside(place: string, path: string): string {
  const folder = join(place, 'set-aside');
  makeFolderDurably(folder);
  let aside = join(folder, basename(path));
  for (let number = 2; existsSync(aside); number++) aside = join(folder, `${number}-${basename(path)}`);
  renameSync(path, aside);
  syncFolder(folder);
  syncFolder(dirname(path));
  return aside;
}
