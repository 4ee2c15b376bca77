import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { BagListing } from '../bag/index.ts';

/** Everything below a folder; links are listed as such and not followed. Rejects what the disk rejects. */
export async function listFolder(folder: string): Promise<BagListing> {
  const files = new Map<string, { bytes: number }>();
  const folders = new Set<string>();
  const others: string[] = [];
  const toRead = [''];
  for (let below = toRead.pop(); below !== undefined; below = toRead.pop()) {
    for (const entry of await readdir(join(folder, below), { withFileTypes: true })) {
      const path = below === '' ? entry.name : `${below}/${entry.name}`;
      if (entry.isDirectory()) {
        folders.add(path);
        toRead.push(path);
      } else if (entry.isFile()) {
        // A name that is not UTF-8 cannot be asked for again: it is told of like whatever else is no ordinary file.
        const found = await lstat(join(folder, path)).catch(() => null);
        if (found === null) others.push(path);
        else files.set(path, { bytes: found.size });
      } else {
        others.push(path);
      }
    }
  }
  return { files, folders, others: others.sort() };
}
