import { realpath, stat } from 'node:fs/promises';
import { sep } from 'node:path';
import { SetsideError } from '../../base/index.ts';
import type { CardFolder } from '../../contract/index.ts';
import type { StationOptions } from '../core/options.ts';
import { overlap } from '../own-folders.ts';
import { removableMounts } from './removable-mounts.ts';

export type CardFolderSources = Pick<StationOptions, 'home' | 'copies' | 'watches' | 'cards'>;

/**
 * Folders that may be read as a card from the page: disks that the system calls removable, folders that the operator named
 * (`--card`), and those that are watched for a camera. Nothing else: a page must not read whatever folder it likes.
 */
export async function cardFolders({
  watches,
  cards,
  home,
  copies,
}: CardFolderSources): Promise<CardFolder[]> {
  const found: CardFolder[] = [
    ...watches.map(({ camera, folder }): CardFolder => ({ folder, why: 'watched', camera })),
    ...cards.map((folder): CardFolder => ({ folder, why: 'named', camera: null })),
    ...(await removableMounts()).map((folder): CardFolder => ({ folder, why: 'removable', camera: null })),
  ];
  const ours = [home, ...copies];
  const seen = new Set<string>();
  const there: CardFolder[] = [];
  for (const each of found) {
    const real = await realpath(each.folder).catch(() => null);
    if (real === null || seen.has(real) || !(await isFolder(real))) continue;
    // A home or a second place on a removable disk is no card.
    if (ours.some((place) => overlap(each.folder, place))) continue;
    seen.add(real);
    there.push(each);
  }
  return there;
}

/**
 * The real path of a folder that may be read as a card: one of those above, or one in it. Links are followed to where they lead
 * before it is asked, so that none leads out. Rejects `no-card`, `card-not-allowed`.
 */
export async function allowedCard(sources: CardFolderSources, wanted: string): Promise<string> {
  const real = await realpath(wanted).catch(() => null);
  const folders = await cardFolders(sources);
  const roots = await Promise.all(folders.map(({ folder }) => realpath(folder).catch(() => null)));
  const isAllowed = (path: string): boolean =>
    roots.some(
      (root) => root !== null && (path === root || path.startsWith(root.endsWith(sep) ? root : root + sep)),
    );
  if (real !== null && isAllowed(real) && (await isFolder(real))) return real;
  const isKnown = [...sources.cards, ...sources.watches.map(({ folder }) => folder)].includes(wanted);
  // Whether another folder is there is nobody's business who may not read it.
  if (isKnown) throw new SetsideError('no-card', `${wanted} is not there now`);
  throw new SetsideError('card-not-allowed', `${wanted} is no removable disk, and nobody named it`);
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null))?.isDirectory() === true;
}
