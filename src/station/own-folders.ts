import { realpathSync } from 'node:fs';
import { basename, dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { SetsideError } from '../base/index.ts';

/**
 * Refuses second places that are none: without a name, within or around the home, or within one another. A copy of a
 * home in itself grows without end, and two places in one folder are one. Throws `bad-option`.
 */
export function checkSecondPlaces(home: string, folders: readonly string[]): void {
  for (const [index, folder] of folders.entries()) {
    if (folder.trim() === '')
      throw wrongPlace('a second place without a name', 'Name a folder on another disk.');
    if (overlap(folder, home)) {
      throw wrongPlace(
        `the second place ${folder} and the home ${home} overlap`,
        'Choose a folder outside the home, on another disk.',
      );
    }
    const other = folders.slice(0, index).find((earlier) => overlap(folder, earlier));
    if (other !== undefined) {
      throw wrongPlace(
        `the second places ${other} and ${folder} overlap`,
        'Name each once, and none within another.',
      );
    }
  }
}

/** Whether one of two folders is the other or lies in it, by their real names. */
export function overlap(one: string, other: string): boolean {
  return isWithin(one, other) || isWithin(other, one);
}

/** Whether a folder is the other or lies in it, by their real names; links are followed first. */
export function isWithin(folder: string, other: string): boolean {
  const way = relative(realName(other), realName(folder));
  return way === '' || !(way === '..' || /^\.\.[/\\]/.test(way) || isAbsolute(way));
}

/** What is not there yet lies where the nearest folder above it really is. */
export function realName(folder: string): string {
  const path = resolve(folder);
  try {
    return realpathSync(path);
  } catch {
    const above = dirname(path);
    return above === path ? path : join(realName(above), basename(path));
  }
}

function wrongPlace(what: string, cure: string): SetsideError {
  return new SetsideError('bad-option', `--copy: ${what}`, { details: { option: 'copy' }, cure });
}
