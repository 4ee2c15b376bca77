import { SetsideError } from '../base/index.ts';
import { type Look, lookList } from '../contract/index.ts';
import { callStation } from './station-calls.ts';

/** Every saved version of a running station, by name, the newest first. */
export async function keptLooks(station: string): Promise<readonly Look[]> {
  return lookList.parse(await (await callStation(station, '/api/v1/looks?all=1')).json()).looks;
}

/**
 * The version that words mean: its id; a name in any case, then the newest that is not laid aside; or name and number as
 * the station tells them, `Evening 2`. Rejects `no-such-look`.
 */
export function lookNamed<Of extends Pick<Look, 'id' | 'name' | 'version' | 'laidAside'>>(
  looks: readonly Of[],
  words: string,
): Of {
  const said = lowered(words);
  const named = looks.filter(({ name }) => lowered(name) === said);
  const meant =
    looks.find(({ id }) => id === words) ??
    named.find(({ laidAside }) => !laidAside) ??
    named[0] ??
    looks.find(({ name, version }) => `${lowered(name)} ${version}` === said);
  if (meant !== undefined) return meant;
  const names = looks
    .map(({ name }) => name)
    .filter((name, at, all) => all.findIndex((other) => lowered(other) === lowered(name)) === at)
    .join(', ');
  throw new SetsideError('no-such-look', `No look “${words}” is kept`, {
    cure: names === '' ? 'setside look save FILE keeps one.' : `Those that are kept: ${names}.`,
  });
}

const lowered = (text: string): string => text.trim().replace(/\s+/g, ' ').toLowerCase();
