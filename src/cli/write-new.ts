import { type FileHandle, open, rm, writeFile } from 'node:fs/promises';
import { errorCode, SetsideError } from '../base/index.ts';

/** Puts bytes into a file of that name; nothing that is there is written over. Rejects `file-exists`. `mode`: as `open` takes it. */
export async function writeNew(file: string, bytes: Uint8Array, mode?: number): Promise<void> {
  await writeFile(file, bytes, { flag: 'wx', ...(mode === undefined ? {} : { mode }) }).catch(
    whereThere(file),
  );
}

/**
 * The same with bytes as they come. What breaks off leaves no file behind: half of one would be taken for whole. Rejects as
 * the parts do.
 */
export async function writeNewParts(file: string, parts: AsyncIterable<Uint8Array>): Promise<void> {
  const handle: FileHandle = await open(file, 'wx').catch(whereThere(file));
  try {
    for await (const part of parts) await handle.writeFile(part);
    await handle.close();
  } catch (thrown) {
    await handle.close().catch(() => {});
    await rm(file, { force: true });
    throw thrown;
  }
}

function whereThere(file: string): (thrown: unknown) => never {
  return (thrown) => {
    if (errorCode(thrown) !== 'EEXIST') throw thrown;
    throw new SetsideError('file-exists', `${file} is there already`, {
      cause: thrown,
      cure: 'Name another file with --to, or take that one away.',
    });
  };
}
