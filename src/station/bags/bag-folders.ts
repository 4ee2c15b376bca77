import type { Dirent } from 'node:fs';
import { readdir, realpath, stat } from 'node:fs/promises';
import { isAbsolute, join } from 'node:path';
import { unfinishedName } from '../../bagging/index.ts';
import { SetsideError } from '../../base/index.ts';
import type { BagPlace, BagThere } from '../../contract/index.ts';
import type { StationOptions } from '../core/options.ts';
import { removableMounts } from '../hand-over/removable-mounts.ts';
import { isWithin, overlap, realName } from '../own-folders.ts';

export interface BagFolderSources extends Pick<StationOptions, 'home' | 'copies' | 'watches' | 'cards'> {
  /** Folders that are destinations. */
  readonly destinations: () => Promise<readonly string[]>;
}

/** Bags that are named; a disk may hold thousands of folders. */
const bagsNamedMax = 50;
const foldersLookedAtMax = 2_000;

/**
 * Folders below which bags may be made and checked from the page: removable disks, and folders that the operator made
 * destinations. Nothing else: a page must neither read nor write whatever folder it likes.
 */
export async function bagPlaces(sources: BagFolderSources): Promise<BagPlace[]> {
  const found: Omit<BagPlace, 'mayMake'>[] = [
    ...(await sources.destinations()).map((folder) => ({ folder, why: 'destination' as const })),
    ...(await removableMounts()).map((folder) => ({ folder, why: 'removable' as const })),
  ];
  const seen = new Set<string>();
  const places: BagPlace[] = [];
  for (const each of found) {
    const real = await realpath(each.folder).catch(() => null);
    if (real === null || seen.has(real) || !(await isFolder(real))) continue;
    if (oursOf(sources).some((ours) => isWithin(real, ours))) continue;
    seen.add(real);
    places.push({ ...each, mayMake: !(await isCard(real)) });
  }
  return places;
}

/**
 * The real path of a folder that a bag may be made or checked in: below one of the places, apart from home, second places, cards and
 * watched folders. Links are followed to where they lead before it is asked, so that none leads out. Rejects `bag-not-allowed`.
 */
export async function allowedBag(
  sources: BagFolderSources,
  kind: 'make' | 'check',
  wanted: string,
): Promise<string> {
  const real = realName(wanted);
  const isOurs = oursOf(sources).some((ours) => overlap(real, ours));
  const places = await bagPlaces(sources);
  const place = places.find(({ folder }) => isWithin(real, folder));
  // Whether another folder is there is nobody's business who may not read it.
  if (!isAbsolute(wanted) || isOurs || place === undefined)
    throw new SetsideError('bag-not-allowed', `${wanted} lies on no removable disk and in no destination`);
  if (kind === 'make' && !place.mayMake)
    throw new SetsideError('bag-not-allowed', `${place.folder} is a camera's card, and is not written to`);
  return real;
}

/** Bags that lie directly in the places, by name. */
export async function bagsThere(places: readonly BagPlace[]): Promise<BagThere[]> {
  const bags: BagThere[] = [];
  for (const { folder: place } of places) {
    const entries = await readdir(place, { withFileTypes: true }).catch((): Dirent[] => []);
    const folders = entries.filter((entry) => entry.isDirectory()).slice(0, foldersLookedAtMax);
    for (const { name } of folders.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const folder = join(place, name);
      const state = await stateOf(folder);
      if (state !== null) bags.push({ folder, state });
      if (bags.length === bagsNamedMax) return bags;
    }
  }
  return bags;
}

/** Whether a bag that was begun lies there: a disk that is away leaves an empty folder, which must not be filled. */
export async function isBegun(folder: string): Promise<boolean> {
  return (await stateOf(folder)) !== null;
}

async function stateOf(folder: string): Promise<BagThere['state'] | null> {
  const names = await readdir(folder).catch((): string[] => []);
  if (names.includes(unfinishedName) && names.every((name) => ownNames.test(name))) return 'unfinished';
  return names.includes('bagit.txt') ? 'whole' : null;
}

/** What makes a folder with `unfinished.txt` one of ours. */
const ownNames = /^(?:data|unfinished\.txt|bag(?:it|-info)\.txt(?:\.part)?|(?:tag)?manifest-sha\d+\.txt)$/;

function oursOf({ home, copies, watches, cards }: BagFolderSources): string[] {
  return [home, ...copies, ...cards, ...watches.map(({ folder }) => folder)];
}

/** CIPA DC-009 (DCF 2.0), section 3.2: a card of a camera has this folder at its top. */
async function isCard(place: string): Promise<boolean> {
  return isFolder(join(place, 'DCIM'));
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null))?.isDirectory() === true;
}
