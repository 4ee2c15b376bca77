import { readSecret, writeSecret } from '../../authority/index.ts';
import { SetsideError } from '../../base/index.ts';
import { type KeptLink, parseLinks } from './core/kept-link.ts';

const file = 'links.json';

/** `keys/links.json`: none where there is no file. Rejects `bad-settings` where it holds something else. */
export async function readLinks(keysFolder: string): Promise<readonly KeptLink[]> {
  const text = await readSecret(keysFolder, file);
  if (text === null) return [];
  const links = parseLinks(text);
  if (links !== null) return links;
  throw new SetsideError('bad-settings', `${keysFolder}/${file} does not hold links`, {
    cure: 'Mend it, or take it away: then every link has ended.',
  });
}

export function writeLinks(keysFolder: string, links: readonly KeptLink[]): Promise<void> {
  return writeSecret(keysFolder, file, `${JSON.stringify(links, null, 2)}\n`);
}
