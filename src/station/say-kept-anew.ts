import { lstat } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';

/** Says that a camera sent again what is not on the disk as received, and whether something is there still. Never rejects. */
export async function sayKeptAnew(
  home: string,
  original: string,
  path: string,
  log: (level: 'warn', finding: Finding) => void,
): Promise<void> {
  const isGone = await lstat(join(home, ...original.split('/'))).then(
    () => false,
    (thrown: unknown) => ['ENOENT', 'ENOTDIR'].includes(errorCode(thrown)),
  );
  log('warn', { code: isGone ? 'keep.kept-anew-gone' : 'keep.kept-anew', args: { original, path } });
}
