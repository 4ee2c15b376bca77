import { access, constants, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { SetsideError } from '../base/index.ts';

/** The folders of a home, see `docs/home.md`. `keep` makes its own beside these. */
export interface Home {
  readonly path: string;
  readonly renderings: string;
  /** Parts of renderings, within a bound. */
  readonly regions: string;
  /** Light before any look, within a bound. */
  readonly scenes: string;
  /** Pictures under looks that nobody saved, each for a moment. */
  readonly tries: string;
  readonly keys: string;
  readonly register: string;
}

/** Makes the folders that are missing. Keys are for this user only. */
export async function openHome(path: string): Promise<Home> {
  const home: Home = {
    path,
    renderings: join(path, 'renderings'),
    regions: join(path, 'renderings', 'regions'),
    scenes: join(path, 'renderings', 'scenes'),
    tries: join(path, 'renderings', 'tries'),
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
