import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { DeliveryEntry } from './delivery-log.ts';

/**
 * What the log of a delivery tells, without the files that are not there any more, or not whole, though it was under way: they are
 * made again. One that has ended is history, and people may have moved its files.
 */
export async function withoutLost(
  entries: readonly DeliveryEntry[],
  folder: string,
): Promise<readonly DeliveryEntry[]> {
  const last = entries.findLast((entry) => 'state' in entry);
  if (last !== undefined && (last.state === 'done' || last.state === 'aborted')) return entries;
  const isThere = await Promise.all(
    entries.map(async (entry) => {
      if (!('made' in entry)) return true;
      const { file, bytes } = entry.made;
      return stat(join(folder, file)).then(
        ({ size }) => size === bytes,
        () => false,
      );
    }),
  );
  return entries.filter((_, index) => isThere[index]);
}
