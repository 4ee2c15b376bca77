import { open } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** Makes the names durable: syncs a bag's folder and every folder that holds one of the paths below it. */
export async function syncFolders(folder: string, paths: readonly string[]): Promise<void> {
  const folders = new Set(['.']);
  for (const path of paths)
    for (let above = dirname(path); above !== '.'; above = dirname(above)) folders.add(above);
  for (const each of folders) {
    const handle = await open(join(folder, each), 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  }
}
