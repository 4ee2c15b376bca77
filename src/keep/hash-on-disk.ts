import type { KeepContext } from './context.ts';

/** SHA-256 of the first bytes of a file on the disk. */
export async function hashOnDisk(context: KeepContext, path: string, sizeBytes: number): Promise<string> {
  const session = context.hashing.begin();
  // digest() says what went wrong.
  session.updateFromFile(path, sizeBytes).catch(() => {});
  return await session.digest().finally(() => session.end());
}
