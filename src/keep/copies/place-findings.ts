import { SetsideError } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/records.ts';
import type { CopyOutcome, PlaceTrouble } from './copy-shapes.ts';

/** What is said of a place to which nothing can be copied now. */
export function placeFinding({ trouble, why }: PlaceTrouble, folder: string): Finding {
  return { code: `copy.${trouble}`, args: trouble === 'failed' ? { folder, why } : { folder } };
}

/** What is said of a file that could not be copied. */
export function fileFinding(
  kind: Exclude<CopyOutcome['kind'], 'copied' | 'place'>,
  { original }: KeptFile,
  folder: string,
): Finding {
  switch (kind) {
    case 'original-missing':
    case 'original-differs':
      return { code: `copy.${kind}`, args: { original } };
    case 'differs':
      return { code: 'copy.differs', args: { original, folder } };
    default:
      throw new SetsideError('bad-record', 'an outcome nobody knows');
  }
}
