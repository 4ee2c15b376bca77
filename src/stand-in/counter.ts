/** A camera's counter outlives its power switch: names go on where they ended. */
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** `counter.json` for the first camera of a folder, `counter-2.json` for the second. */
function fileName(camera: number): string {
  return camera === 1 ? 'counter.json' : `counter-${camera}.json`;
}

/** The ordinal of the next frame, 1 where none was ever shot or the file cannot be read. */
export async function readCounter(folder: string, camera: number): Promise<number> {
  try {
    const kept: unknown = JSON.parse(await readFile(join(folder, fileName(camera)), 'utf8'));
    if (typeof kept === 'object' && kept !== null && 'next' in kept && Number.isSafeInteger(kept.next)) {
      return Math.max(1, Number(kept.next));
    }
  } catch {
    // No file, or not JSON: a new camera.
  }
  return 1;
}

export async function writeCounter(folder: string, camera: number, next: number): Promise<void> {
  await mkdir(folder, { recursive: true });
  const path = join(folder, fileName(camera));
  const temporary = `${path}.part`;
  await writeFile(temporary, JSON.stringify({ next }));
  await rename(temporary, path);
}
