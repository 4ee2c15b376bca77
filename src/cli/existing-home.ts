import { access } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { SetsideError } from '../base/index.ts';

/** The absolute folder of a home that a station has used. Rejects `no-home`. */
export async function existingHome(given: string): Promise<string> {
  const home = resolve(given);
  await access(join(home, 'journal')).catch((cause: unknown) => {
    throw new SetsideError('no-home', `${home} is no home of a station: it holds no journal`, {
      cause,
      cure: 'Name the right folder with --home; a new one is made by the first setside station there.',
    });
  });
  return home;
}
