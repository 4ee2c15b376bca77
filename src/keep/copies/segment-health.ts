import { closeSync, openSync, readSync } from 'node:fs';
import { MiB } from '../../base/index.ts';
import { LineCutter } from '../core/journal-line.ts';

/** How many lines of a segment cannot be read, each by its own checksum; a line without an end is one of them. */
export function badLines(path: string): number {
  const file = openSync(path, 'r');
  try {
    const cutter = new LineCutter();
    const chunk = Buffer.allocUnsafe(MiB);
    let bad = 0;
    for (;;) {
      const got = readSync(file, chunk, 0, chunk.length, null);
      if (got === 0) return cutter.torn ? bad + 1 : bad;
      bad += cutter.push(chunk.subarray(0, got)).filter(({ kind }) => kind === 'damaged').length;
    }
  } finally {
    closeSync(file);
  }
}

/**
 * Whether a copy of a segment is to be trusted rather than the segment itself: of this some line cannot be read, of the
 * copy every one. Then it may be all that is left of those entries.
 */
export function isSounderCopy(copy: string, segment: string): boolean {
  return badLines(segment) > 0 && badLines(copy) === 0;
}
