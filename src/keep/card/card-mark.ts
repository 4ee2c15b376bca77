import { createHash } from 'node:crypto';
import { lstat, readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * By what a card is known again without reading it: the device of its folder, and name, size and time of change of everything in it,
 * as one hash. Another card in the same reader, or one that was shot on, has another. Null where there is none, or it cannot be
 * listed. Reads no file; takes no thread but the system's.
 */
export async function cardMark(folder: string): Promise<string | null> {
  try {
    const { dev } = await stat(folder, { bigint: true });
    const lines = [`${dev}`];
    const entries = await readdir(folder, { withFileTypes: true, recursive: true });
    for (const entry of entries) {
      if (entry.isDirectory()) continue;
      const path = join(entry.parentPath, entry.name);
      const { size, mtimeNs } = await lstat(path, { bigint: true });
      lines.push(JSON.stringify([path, String(size), String(mtimeNs)]));
    }
    return createHash('sha256').update(lines.sort().join('\n')).digest('hex');
  } catch {
    return null;
  }
}
