import { mkdir, open, readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode, SetsideError } from '../base/index.ts';
import { type HostKeyKind, makeHostKey, printHostKey } from '../receive/index.ts';

/**
 * The keys by which clients know this station again, from `keys/ssh-host-KIND` (mode 0600), made at the first start. RSA
 * only where it is shown: it takes a second to make. Throws `bad-settings` where a file holds no such key; it is
 * never replaced by itself, since clients would then warn of an intruder.
 */
export async function openHostKeys(keysFolder: string, oldCameras: boolean): Promise<readonly string[]> {
  const kinds: readonly HostKeyKind[] = oldCameras ? ['ed25519', 'ecdsa', 'rsa'] : ['ed25519', 'ecdsa'];
  await mkdir(keysFolder, { recursive: true, mode: 0o700 });
  return Promise.all(kinds.map((kind) => openHostKey(join(keysFolder, `ssh-host-${kind}`), kind)));
}

async function openHostKey(file: string, kind: HostKeyKind): Promise<string> {
  const key = await readIfThere(file);
  if (key === null) return writeSecret(file, makeHostKey(kind));
  if (printHostKey(key)?.kind === kind) return key;
  throw new SetsideError('bad-settings', `${file} does not hold a private ${kind} key without a passphrase`, {
    cure: 'Put the right key back, or take the file away: a new key is made, and clients will have to trust it anew.',
  });
}

async function readIfThere(file: string): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return null;
    throw thrown;
  }
}

/** Written beside and renamed, so that a crash leaves the whole key or none. */
async function writeSecret(file: string, text: string): Promise<string> {
  const handle = await open(`${file}.new`, 'w', 0o600);
  try {
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(`${file}.new`, file);
  return text;
}
