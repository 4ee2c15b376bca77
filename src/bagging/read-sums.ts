import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import type { Algorithm, SumsRead } from '../bag/index.ts';
import { errorMessage, MiB } from '../base/index.ts';

/**
 * Reads a file once and gives the checksums asked for, or why it cannot be read. A link put there meanwhile is refused by
 * the system (`O_NOFOLLOW`). `onBytes` hears of each piece read.
 */
export async function readSums(
  path: string,
  algorithms: readonly Algorithm[],
  onBytes: (bytes: number) => void = () => {},
): Promise<SumsRead> {
  const hashes = algorithms.map((algorithm) => ({ algorithm, hash: createHash(algorithm) }));
  try {
    const file = await open(path, constants.O_RDONLY | constants.O_NOFOLLOW);
    for await (const piece of file.createReadStream({ highWaterMark: MiB })) {
      for (const { hash } of hashes) hash.update(piece);
      onBytes(piece.length);
    }
  } catch (thrown) {
    return { why: errorMessage(thrown) };
  }
  return Object.fromEntries(hashes.map(({ algorithm, hash }) => [algorithm, hash.digest('hex')]));
}
