import { randomBytes } from 'node:crypto';
import { type FileHandle, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode, SetsideError } from '../../base/index.ts';
import { parseAllowRule } from './core/allow-rule.ts';
import {
  allowRulesMax,
  type Camera,
  cameraNamePattern,
  camerasMax,
  isProtocol,
  isRowTimeUs,
  keysMax,
  protocols,
} from './core/camera.ts';
import { passwordFromBytes } from './core/password.ts';

/** Half written by somebody who has gone: a write takes milliseconds. */
const staleAfterMs = 5000;
const triesMax = 100;

/** `keys/cameras.json`: the cameras with their passwords, for this user only (mode 0600). */
export function cameraFile(keysFolder: string): string {
  return join(keysFolder, 'cameras.json');
}

/** The cameras of a home; none where there is no file yet. Rejects `bad-settings` where it holds something else. */
export async function readCameras(keysFolder: string): Promise<readonly Camera[]> {
  const file = cameraFile(keysFolder);
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT') return [];
    throw thrown;
  }
  return parseCameras(text, file);
}

/**
 * Changes the cameras of a home in one step, for the station and for a command beside it: both read, change and write
 * while they hold the lock, `cameras.json.new`. Whoever finds at the end that another has taken it begins again, so
 * `change` may be called more than once. Gives the cameras after the change; rejects what `change` throws.
 */
export async function changeCameras(
  keysFolder: string,
  change: (cameras: readonly Camera[]) => readonly Camera[],
): Promise<readonly Camera[]> {
  for (;;) {
    const cameras = await tryToChange(keysFolder, change);
    if (cameras !== null) return cameras;
  }
}

/** Null where the lock was lost meanwhile: this process slept for longer than a lock counts. */
async function tryToChange(
  keysFolder: string,
  change: (cameras: readonly Camera[]) => readonly Camera[],
): Promise<readonly Camera[] | null> {
  const file = cameraFile(keysFolder);
  const lock = `${file}.new`;
  const handle = await openNew(lock);
  // A file of its own, so that what is renamed is never what another is writing.
  const written = `${file}.${randomBytes(6).toString('hex')}.new`;
  try {
    const cameras = change(await readCameras(keysFolder));
    await writeWhole(written, `${JSON.stringify(cameras, null, 2)}\n`);
    if (!(await isStillAt(lock, handle))) return null;
    await rename(written, file);
    return cameras;
  } finally {
    await rm(written, { force: true });
    if (await isStillAt(lock, handle)) await rm(lock, { force: true });
    await handle.close();
  }
}

async function writeWhole(path: string, text: string): Promise<void> {
  const handle = await open(path, 'wx', 0o600);
  try {
    await handle.writeFile(text);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Whether the file at this path is the one that is open: its number is given to no other while it is. */
async function isStillAt(path: string, handle: FileHandle): Promise<boolean> {
  const [there, own] = await Promise.all([stat(path).catch(() => null), handle.stat()]);
  return there !== null && there.ino === own.ino;
}

/** A camera that may come in from everywhere, by every door, with a random password. */
export function newCamera(name: string): Camera {
  return {
    name,
    user: name,
    password: newPassword(),
    allow: [],
    protocols,
    keys: [],
    rowTimeUs: null,
    ended: false,
  };
}

export function newPassword(): string {
  const password = passwordFromBytes(randomBytes(256));
  if (password === null) throw new Error('256 random bytes gave no password: the odds are below 1 in 10^100');
  return password;
}

async function openNew(path: string): Promise<FileHandle> {
  for (let tries = 1; ; tries++) {
    try {
      return await open(path, 'wx', 0o600);
    } catch (thrown) {
      if (errorCode(thrown) !== 'EEXIST' || tries === triesMax) throw thrown;
      const { mtimeMs } = await stat(path).catch(() => ({ mtimeMs: Date.now() }));
      if (Date.now() - mtimeMs > staleAfterMs) await rm(path, { force: true });
      else await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }
}

function parseCameras(text: string, file: string): readonly Camera[] {
  const wrong = (): SetsideError =>
    new SetsideError('bad-settings', `${file} does not hold cameras`, {
      cure: 'Mend it, or take it away: a new camera with a new password is made at the next start.',
    });
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw wrong();
  }
  if (!Array.isArray(data) || data.length === 0 || data.length > camerasMax) throw wrong();
  return data.map((entry: unknown) => {
    const camera = cameraOf(entry);
    if (camera === null) throw wrong();
    return camera;
  });
}

/** Null where it is none. What was not there in files of the first days has its default. */
function cameraOf(entry: unknown): Camera | null {
  if (typeof entry !== 'object' || entry === null) return null;
  const fields = new Map<string, unknown>(Object.entries(entry));
  const [name, user, password] = [fields.get('name'), fields.get('user'), fields.get('password')];
  if (typeof name !== 'string' || !cameraNamePattern.test(name)) return null;
  if (typeof user !== 'string' || user === '' || typeof password !== 'string' || password === '') return null;
  const allow = textsIn(fields.get('allow'), allowRulesMax);
  const ways = textsIn(fields.get('protocols') ?? protocols, protocols.length);
  const keys = textsIn(fields.get('keys'), keysMax);
  if (allow === null || ways === null || keys === null) return null;
  if (!allow.every((rule) => parseAllowRule(rule) !== null)) return null;
  return {
    name,
    user,
    password,
    allow,
    protocols: ways.filter(isProtocol),
    keys,
    rowTimeUs: rowTimeOf(fields.get('rowTimeUs')),
    ended: fields.get('ended') === true,
  };
}

/** Files of the first days have none. */
function rowTimeOf(value: unknown): number | null {
  return typeof value === 'number' && isRowTimeUs(value) ? value : null;
}

function textsIn(value: unknown, countMax: number): string[] | null {
  if (value === undefined) return [];
  if (!Array.isArray(value) || value.length > countMax) return null;
  const texts = value.filter((entry): entry is string => typeof entry === 'string');
  return texts.length === value.length ? texts : null;
}
