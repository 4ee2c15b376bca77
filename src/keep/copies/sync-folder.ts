import { closeSync, fsyncSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import { errorCode } from '../../base/index.ts';

/** Makes the entries of a folder durable, where the system knows how. */
export function syncFolder(folder: string): void {
  let file: number;
  try {
    file = openSync(folder, 'r');
  } catch (thrown) {
    // Windows opens no folders; its file systems journal their entries.
    if (process.platform === 'win32') return;
    throw thrown;
  }
  try {
    fsyncSync(file);
  } catch (thrown) {
    // Some network file systems have no such operation.
    if (!['EINVAL', 'ENOTSUP', 'EPERM'].includes(errorCode(thrown))) throw thrown;
  } finally {
    closeSync(file);
  }
}

/** Makes a folder and what is missing above it, each new name durable in its parent. */
export function makeFolderDurably(folder: string): void {
  try {
    mkdirSync(folder);
  } catch (thrown) {
    const code = errorCode(thrown);
    if (code === 'EEXIST') return;
    if (code !== 'ENOENT') throw thrown;
    makeFolderDurably(dirname(folder));
    mkdirSync(folder);
  }
  syncFolder(dirname(folder));
}
