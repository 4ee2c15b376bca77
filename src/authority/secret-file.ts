import { chmod, mkdir, open, readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode } from '../base/index.ts';

/** The folder of keys, for this user only. */
export async function openSecretFolder(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  await chmod(folder, 0o700);
}

/** The text of a secret, or null where there is no such file. Rights that were left too wide are taken back. */
export async function readSecret(folder: string, name: string): Promise<string | null> {
  const file = join(folder, name);
  try {
    await chmod(file, 0o600);
    return await readFile(file, 'utf8');
  } catch (trouble) {
    if (errorCode(trouble) === 'ENOENT') return null;
    throw trouble;
  }
}

/** Written beside, synced and renamed: a crash leaves the old file or the new one, and nobody else ever reads it. */
export async function writeSecret(folder: string, name: string, text: string): Promise<void> {
  const file = join(folder, name);
  const handle = await open(`${file}.new`, 'w', 0o600);
  try {
    await handle.chmod(0o600);
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(`${file}.new`, file);
  await syncFolder(folder);
}

/** Not every system lets a folder be opened; there the rename is as durable as the system makes it. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => {});
  await handle?.close();
}
