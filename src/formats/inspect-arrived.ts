import { MiB } from '../base/index.ts';
import type { ByteRange } from './byte-source.ts';
import { inspect } from './inspect.ts';
import type { Inspection } from './inspection.ts';
import { defaultLimits, type Limits } from './limits.ts';
import type { SparseSource } from './sparse-source.ts';

/** How the owner of a file loads what has arrived: exactly `range`, or null where it cannot. */
export type ArrivedBytes = (range: ByteRange) => Promise<Uint8Array | null>;

/**
 * What one call loads beyond every byte once: a hostile file can scatter its structure so that the source forgets one
 * block for each that is loaded, and would be asked for ever.
 */
const reloadBytesMax: number = 32 * MiB;

/**
 * Inspects, loads what was wanted, and inspects again until nothing more is wanted of what has arrived, or nothing
 * wanted could be loaded. Rejects only where `load` does, or with the signal's reason.
 */
export async function inspectArrived(
  source: SparseSource,
  load: ArrivedBytes,
  options: {
    readonly limits?: Limits;
    /** The last inspection of the same file. */
    readonly previous?: Inspection | null;
    readonly signal?: AbortSignal;
  } = {},
): Promise<Inspection> {
  const limits = options.limits ?? defaultLimits;
  let inspection = inspect(source, limits, options.previous ?? null);
  let loadedBytes = 0;
  while (inspection.wanted.length > 0 && loadedBytes <= source.sizeBytes + reloadBytesMax) {
    const before = loadedBytes;
    for (const range of inspection.wanted) {
      options.signal?.throwIfAborted();
      const bytes = await load(range);
      if (bytes === null) continue;
      source.put(range.offset, bytes);
      loadedBytes += bytes.length;
    }
    if (loadedBytes === before) return inspection;
    inspection = inspect(source, limits, inspection);
  }
  return inspection;
}
