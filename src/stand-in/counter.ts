/** A camera's counter outlives its power switch: names go on where they ended. */
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

const fileName = 'counter.json';

/** The ordinal of the next frame, 1 where none was ever shot or the file cannot be read. */
export async function readCounter(folder: string): Promise<number> {
  try {
    const kept: unknown = JSON.parse(await readFile(join(folder, fileName), 'utf8'));
    if (typeof kept === 'object' && kept !== null && 'next' in kept && Number.isSafeInteger(kept.next)) {
      return Math.max(1, Number(kept.next));
    }
  } catch {
    // No file, or not JSON: a new camera.
  }
  return 1;
}

export async function writeCounter(folder: string, next: number): Promise<void> {
  await mkdir(folder, { recursive: true });
  const temporary = join(folder, `${fileName}.part`);
  await writeFile(temporary, JSON.stringify({ next }));
  await rename(temporary, join(folder, fileName));
}
