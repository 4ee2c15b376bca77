import { realpath, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';

/**
 * The home of a station, or its second place, that a folder lies in or is; null where it lies in none. Links are
 * followed, and the folder itself may not be there yet.
 */
export async function homeAbove(folder: string): Promise<string | null> {
  for (let at = await realFolder(resolve(folder)); ; at = dirname(at)) {
    if ((await isFolder(join(at, 'journal'))) && (await isFolder(join(at, 'jobs')))) return at;
    if (dirname(at) === at) return null;
  }
}

/** The nearest folder at or above that is there, by its real name. */
async function realFolder(folder: string): Promise<string> {
  for (let at = folder; ; at = dirname(at)) {
    const real = await realpath(at).catch(() => null);
    if (real !== null || dirname(at) === at) return real ?? at;
  }
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null))?.isDirectory() ?? false;
}
