import type { Finding } from '../../../facts/index.ts';
import type { NameTrouble } from '../../core/path.ts';

/** Something in a watched folder that looks like a camera's file and can never be taken. */
export interface NotTaken {
  /** Below the folder, as well as it can be read. */
  readonly path: string;
  readonly why: 'link' | 'not-utf-8' | NameTrouble;
}

/** So many are named one by one in a stay; all are counted. */
const namedMax = 20;

/** What is to be told of them: each of the first once, and how many they are whenever that changes. */
export class MissedFiles {
  readonly #told = new Set<string>();
  #last = '';

  tell(found: readonly NotTaken[], folder: string): Finding[] {
    const paths = found.map(({ path }) => path).sort();
    const [name] = paths;
    const all = paths.join('\n');
    if (all === this.#last) return [];
    this.#last = all;
    const fresh = found.filter(({ path }) => !this.#told.has(path)).slice(0, namedMax - this.#told.size);
    for (const { path } of fresh) this.#told.add(path);
    return [
      ...fresh.map(findingOf),
      name === undefined
        ? { code: 'line.watch-none-missed', args: { folder } }
        : { code: 'line.watch-not-taken', args: { folder, count: found.length, name } },
    ];
  }
}

function findingOf({ path, why }: NotTaken): Finding {
  return why === 'link'
    ? { code: 'line.watch-link', args: { name: path } }
    : { code: 'line.watch-name', args: { name: path, why } };
}
