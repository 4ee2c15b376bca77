import { MiB } from '../../base/index.ts';
import { partBytesLeast } from './limits.ts';

/** Amazon S3 User Guide, "Amazon S3 multipart upload limits" (from memory): part numbers from 1 to 10,000. */
export const partsMax = 10_000;

/** One part: its number from 1, where it begins, how many bytes it has. */
export interface Part {
  readonly number: number;
  readonly start: number;
  readonly bytes: number;
}

/**
 * The parts of a file of so many bytes, all but the last of one size: the least that keeps their number within the limit, so that going
 * on with an upload finds the same parts. A file that fits into one part is sent whole: null.
 */
export function planParts(bytes: number): readonly Part[] | null {
  if (bytes <= partBytesLeast) return null;
  const partBytes = Math.max(partBytesLeast, Math.ceil(bytes / partsMax / MiB) * MiB);
  const count = Math.ceil(bytes / partBytes);
  return Array.from({ length: count }, (_, index) => ({
    number: index + 1,
    start: index * partBytes,
    bytes: Math.min(partBytes, bytes - index * partBytes),
  }));
}
