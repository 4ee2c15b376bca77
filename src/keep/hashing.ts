import type { Disk } from './disk.ts';
import { InlineHashing } from './hash-inline.ts';
import { HashPool } from './hash-pool.ts';
import type { Hashing } from './hash-session.ts';

/**
 * Hashing in so many worker threads, or in line where `workers` is 0 or this runs from sources, which a worker cannot
 * load. In line costs half the throughput (bench `receive`), and nothing else is different.
 */
export function openHashing(disk: Disk, workers: number): Hashing {
  const entry = new URL('./hash-worker.js', import.meta.url);
  const built = import.meta.url.endsWith('.js');
  return workers > 0 && built ? new HashPool(entry, workers) : new InlineHashing(disk);
}
