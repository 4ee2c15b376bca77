import { access, constants, mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { SetsideError } from '../base/index.ts';
import { parsePort, type StationWishes } from './core/options.ts';

/** The folders of a home, see `contract.md`, On disk. `keep` makes its own beside these. */
export interface Home {
  readonly path: string;
  readonly renderings: string;
  /** Parts of renderings, within a bound. */
  readonly regions: string;
  readonly keys: string;
  readonly register: string;
}

/** Makes the folders that are missing. Keys are for this user only. */
export async function openHome(path: string): Promise<Home> {
  const home: Home = {
    path,
    renderings: join(path, 'renderings'),
    regions: join(path, 'renderings', 'regions'),
    keys: join(path, 'keys'),
    register: join(path, 'setside.db'),
  };
  try {
    await mkdir(home.renderings, { recursive: true });
    await mkdir(home.keys, { recursive: true, mode: 0o700 });
    await access(path, constants.W_OK);
  } catch (cause) {
    throw new SetsideError('home-unusable', `the home ${path} cannot be made or written`, {
      cause,
      cure: 'Choose another folder with --home, or give this user the right to write there.',
    });
  }
  return home;
}

/** What `setside.json` wishes; nothing where there is no such file. Throws `bad-settings`. */
export async function readSettings(homePath: string): Promise<StationWishes> {
  const file = join(homePath, 'setside.json');
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch {
    return {};
  }
  return parseSettings(text, file);
}

function parseSettings(text: string, file: string): StationWishes {
  const wrong = (what: string): SetsideError =>
    new SetsideError('bad-settings', `${file}: ${what}`, { cure: 'Mend the file or take it away.' });
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw wrong('is not JSON');
  }
  if (typeof data !== 'object' || data === null || Array.isArray(data)) throw wrong('is not an object');
  const entries = new Map<string, unknown>(Object.entries(data));
  const port = (name: string): { [key: string]: number } => {
    const value = entries.get(name);
    return value === undefined ? {} : { [name]: parsePort(String(value), name) };
  };
  const textOf = (name: string): { [key: string]: string } => {
    const value = entries.get(name);
    if (value === undefined) return {};
    if (typeof value !== 'string') throw wrong(`"${name}" is not text`);
    return { [name]: value };
  };
  const foldersOf = (name: string): { [key: string]: readonly string[] } => {
    const value = entries.get(name);
    if (value === undefined) return {};
    const folders: unknown[] = Array.isArray(value) ? value : [value];
    const texts = folders.filter((folder) => typeof folder === 'string');
    if (texts.length !== folders.length) throw wrong(`"${name}" is neither a folder nor a list of folders`);
    return { [name]: texts };
  };
  const numberOf = (name: string, max: number): { [key: string]: number } => {
    const value = entries.get(name);
    if (value === undefined) return {};
    if (typeof value !== 'number' || !(value >= 0 && value <= max))
      throw wrong(`"${name}" is no number up to ${max}`);
    return { [name]: value };
  };
  const choiceOf = (name: string): { [key: string]: boolean } => {
    const value = entries.get(name);
    if (value === undefined) return {};
    if (typeof value !== 'boolean') throw wrong(`"${name}" is neither true nor false`);
    return { [name]: value };
  };
  return {
    ...port('web'),
    ...port('ftp'),
    ...port('ftps'),
    ...choiceOf('encryptedOnly'),
    ...textOf('tlsFrom'),
    ...choiceOf('tlsResume'),
    ...port('sftp'),
    ...textOf('passive'),
    ...textOf('bind'),
    ...foldersOf('copy'),
    ...foldersOf('watch'),
    ...numberOf('diskFloorMB', 1e9),
    ...numberOf('silentAfterMinutes', 1440),
    ...choiceOf('keepAwake'),
    ...choiceOf('sftpOldCameras'),
  };
}
