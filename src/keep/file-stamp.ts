import { stat } from 'node:fs/promises';
import { errorCode } from '../base/index.ts';

/** Changes when another file has been put in a file's place, or it was written; null where there is none. Costs one look at a name. */
export async function fileStamp(path: string): Promise<string | null> {
  try {
    const { ino, mtimeMs, size } = await stat(path);
    return `${ino} ${mtimeMs} ${size}`;
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return null;
    throw thrown;
  }
}
