import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { errorCode, errorMessage, SetsideError } from '../base/index.ts';
import { parseBind } from './bind-address.ts';
import {
  parsePort,
  parsePortRange,
  parseTlsVersion,
  parseWatch,
  type StationWishes,
} from './core/options.ts';

/**
 * What `setside.json` wishes; nothing where there is no such file. One that is there and cannot be read is refused: it may
 * say on which address to serve, and guessing there is worse than not starting.
 * Rejects `bad-settings`, `bad-option`.
 */
export async function readSettings(homePath: string): Promise<StationWishes> {
  const file = join(homePath, 'setside.json');
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (thrown) {
    if (errorCode(thrown) === 'ENOENT' || errorCode(thrown) === 'ENOTDIR') return {};
    throw wrongSettings(file, `cannot be read (${errorMessage(thrown)})`, thrown);
  }
  return parseSettings(text, file);
}

/** One setting: its value as the wish it is. Throws where it is none. */
type ParseSetting<Wish> = (value: unknown, where: string) => Wish;

/** Every setting there is; any other key is a slip of the pen that would go unnoticed for a year. */
const settings: {
  readonly [Name in Exclude<keyof StationWishes, 'home'>]-?: ParseSetting<StationWishes[Name]>;
} = {
  web: (value, where) => parsePort(String(value), where),
  links: (value, where) => parsePort(String(value), where),
  ftp: (value, where) => parsePort(String(value), where),
  ftps: (value, where) => parsePort(String(value), where),
  encryptedOnly: choice,
  tlsFrom: (value, where) => parseTlsVersion(String(value), where),
  tlsResume: choice,
  sftp: (value, where) => parsePort(String(value), where),
  sftpOldCameras: choice,
  passive: (value, where) => parsePortRange(String(value), where),
  bind: (value, where) => parseBind(String(value), where),
  copy: folders,
  memoryCounts: choice,
  watch: (value, where) => folders(value, where).map((text) => parseWatch(text, where)),
  card: folders,
  verifyEveryDays: numberUpTo(3650),
  silentAfterMinutes: numberUpTo(1440),
  keepAwake: choice,
  sidecars: choice,
  diskFloorMB: numberUpTo(1e9),
  renderingsMB: numberUpTo(1e9),
};

function parseSettings(text: string, file: string): StationWishes {
  const wishes: [string, unknown][] = [];
  for (const [name, value] of Object.entries(parseObject(text, file))) {
    const parse: ParseSetting<unknown> | undefined = new Map(Object.entries(settings)).get(name);
    if (parse === undefined) {
      throw wrongSettings(file, `"${name}" is no setting; there are ${Object.keys(settings).join(', ')}`);
    }
    wishes.push([name, parse(value, `"${name}" in ${file}`)]);
  }
  return Object.fromEntries(wishes);
}

function parseObject(text: string, file: string): object {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (thrown) {
    throw wrongSettings(file, 'is not JSON', thrown);
  }
  if (typeof data === 'object' && data !== null && !Array.isArray(data)) return data;
  throw wrongSettings(file, 'is not an object');
}

function folders(value: unknown, where: string): readonly string[] {
  const list: unknown[] = Array.isArray(value) ? value : [value];
  const texts = list.filter((folder) => typeof folder === 'string');
  if (texts.length === list.length) return texts;
  throw wrongSettings(where, 'is neither a folder nor a list of folders');
}

function numberUpTo(max: number): ParseSetting<number> {
  return (value, where) => {
    if (typeof value === 'number' && value >= 0 && value <= max) return value;
    throw wrongSettings(where, `is no number up to ${max}`);
  };
}

function choice(value: unknown, where: string): boolean {
  if (typeof value === 'boolean') return value;
  throw wrongSettings(where, 'is neither true nor false');
}

function wrongSettings(where: string, what: string, cause?: unknown): SetsideError {
  return new SetsideError('bad-settings', `${where} ${what}`, {
    cause,
    cure: 'Mend the file or take it away.',
  });
}
