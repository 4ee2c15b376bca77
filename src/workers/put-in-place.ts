import { constants } from 'node:fs';
import { copyFile, link, rename, rm } from 'node:fs/promises';
import { errorCode } from '../base/index.ts';
import { outputExists } from './errors.ts';

/**
 * Gives a finished file its name; `from` is gone afterwards, also where this rejects. Without `replace` nothing that
 * lies under the name is touched, whoever put it there and however late: `output-exists`.
 */
export async function putInPlace(from: string, to: string, replace: boolean): Promise<void> {
  try {
    if (replace) await rename(from, to);
    else await nameAnew(from, to);
  } catch (thrown) {
    throw errorCode(thrown) === 'EEXIST' ? outputExists(to, thrown) : thrown;
  } finally {
    await rm(from, { force: true });
  }
}

/** link(2) never replaces, which rename(2) does. A card's file system may know no links: then a copy that never replaces. */
async function nameAnew(from: string, to: string): Promise<void> {
  try {
    await link(from, to);
  } catch (thrown) {
    if (errorCode(thrown) === 'EEXIST') throw thrown;
    await copyFile(from, to, constants.COPYFILE_EXCL);
  }
}
