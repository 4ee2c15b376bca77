import { randomBytes } from 'node:crypto';
import { open, readFile, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { SetsideError } from '../base/index.ts';
import { passwordFromBytes } from './core/password.ts';

/** A registered sender and its log-in. The password is kept readable: a person must type it on the camera. */
export interface Camera {
  /** Also its folder's name: letters, digits and hyphens. */
  readonly name: string;
  readonly user: string;
  readonly password: string;
}

/**
 * The cameras of a home, from `keys/cameras.json` (mode 0600); on the first start one is made with a random password.
 * Throws `bad-settings` when the file cannot be read.
 */
export async function openCameras(keysFolder: string): Promise<readonly Camera[]> {
  const file = join(keysFolder, 'cameras.json');
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch {
    const cameras = [newCamera('cam1')];
    await writeSecret(file, `${JSON.stringify(cameras, null, 2)}\n`);
    return cameras;
  }
  return parseCameras(text, file);
}

function newCamera(name: string): Camera {
  const password = passwordFromBytes(randomBytes(256));
  if (password === null) throw new Error('256 random bytes gave no password: the odds are below 1 in 10^100');
  return { name, user: name, password };
}

/** Written beside and renamed, so that a crash leaves the old file or the new one. */
async function writeSecret(file: string, text: string): Promise<void> {
  const handle = await open(`${file}.new`, 'w', 0o600);
  try {
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
  await rename(`${file}.new`, file);
}

function parseCameras(text: string, file: string): readonly Camera[] {
  const wrong = new SetsideError('bad-settings', `${file} does not hold cameras`, {
    cure: 'Take the file away: a new camera with a new password is made at the next start.',
  });
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw wrong;
  }
  if (!Array.isArray(data) || data.length === 0) throw wrong;
  return data.map((entry: unknown) => {
    if (!isCamera(entry)) throw wrong;
    return { name: entry.name, user: entry.user, password: entry.password };
  });
}

function isCamera(entry: unknown): entry is Camera {
  if (typeof entry !== 'object' || entry === null) return false;
  const fields = new Map<string, unknown>(Object.entries(entry));
  const text = (name: string): boolean => typeof fields.get(name) === 'string' && fields.get(name) !== '';
  return text('user') && text('password') && /^[A-Za-z0-9-]{1,40}$/.test(String(fields.get('name')));
}
