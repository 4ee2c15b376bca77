import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import type { Algorithm, SumsRead } from '../bag/index.ts';
import { errorMessage, MiB } from '../base/index.ts';

/**
 * Reads a file once and gives the checksums asked for, or why it cannot be read. A link put there meanwhile is refused by
 * the system (`O_NOFOLLOW`). `onBytes` hears of each piece read, and
 * is waited for; what it rejects is passed on.
 */
export async function readSums(
  path: string,
  algorithms: readonly Algorithm[],
  onBytes: (bytes: number) => Promise<void> = async () => {},
): Promise<SumsRead> {
  const hashes = algorithms.map((algorithm) => ({ algorithm, hash: createHash(algorithm) }));
  const stopped: { cause: unknown }[] = [];
  try {
    const file = await open(path, constants.O_RDONLY | constants.O_NOFOLLOW);
    for await (const piece of file.createReadStream({ highWaterMark: MiB })) {
      for (const { hash } of hashes) hash.update(piece);
      await onBytes(piece.length).catch((cause: unknown) => {
        stopped.push({ cause });
        throw cause;
      });
    }
  } catch (thrown) {
    const [stop] = stopped;
    if (stop !== undefined) throw stop.cause;
    return { why: errorMessage(thrown) };
  }
  return Object.fromEntries(hashes.map(({ algorithm, hash }) => [algorithm, hash.digest('hex')]));
}
