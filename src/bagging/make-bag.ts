import { mkdir, readdir, readFile, rename, rm, statfs, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { declarationText, type InfoField, infoText, manifestText, oxumText } from '../bag/index.ts';
import { errorCode, SetsideError } from '../base/index.ts';
import { sizePhrase } from '../words/index.ts';
import type { BagEar } from './bag-ear.ts';
import type { BagSource } from './bag-source.ts';
import { type BagReport, checkBag } from './check-bag.ts';
import { type Filled, fillFile, writeSynced } from './fill-file.ts';
import { listFolder } from './list-folder.ts';
import { payloadPaths } from './payload-paths.ts';
import { readSums } from './read-sums.ts';
import { syncFolders } from './sync-folders.ts';

export interface BagWish {
  /** A folder that is new, empty, or holds this very bag unfinished. */
  readonly folder: string;
  /** Of what this is the bag: an unfinished one is gone on with only under the same name. */
  readonly name: string;
  readonly sources: readonly BagSource[];
  /** Fields of `bag-info.txt`; `Payload-Oxum` and `Bag-Size` are added. */
  readonly info: readonly InfoField[];
}

/** In a bag's folder while it is being made; its text is the bag's name. Also says that the folder is ours to go on with. */
export const unfinishedName = 'unfinished.txt';

/** The kinds of checksum RFC 8493, section 2.4, asks everybody to know. */
const made = ['sha256', 'sha512'] as const;

/**
 * Writes a bag: each source is read once, its bytes go to the bag and into both checksums, and in the end the whole bag is
 * read again. What an earlier, broken-off attempt wrote is kept where its bytes are proved to be right. `bagit.txt` comes
 * last: before it this is no bag. {@link unfinishedName} goes once all was read again and is right. Rejects `bag-there`, `bag-no-room`, `bag-source-altered`, and what the disk rejects.
 */
export async function makeBag(
  { folder, name, sources, info }: BagWish,
  ear: BagEar = {},
): Promise<BagReport> {
  await begin(folder, name);
  const bytes = sources.reduce((sum, source) => sum + sizeOf(source), 0);
  const paths = payloadPaths(sources.map(({ path }) => path));
  await refuseOthers(folder, paths);
  await needRoom(folder, sources, paths, bytes);
  const filled: Filled[] = [];
  let doneBytes = 0;
  for (const [index, source] of sources.entries()) {
    const path = `data/${paths[index] ?? source.path}`;
    const to = join(folder, ...path.split('/'));
    const report = async (count: number): Promise<void> => {
      doneBytes += count;
      ear.onProgress?.({ phase: 'writing', doneBytes, bytes, path });
      await ear.rest?.();
    };
    const held = await heldSums(to, source, report, ear.rest);
    filled.push({ path, ...(held ?? (await fillFile(source, to, report))) });
  }
  await mkdir(join(folder, 'data'), { recursive: true });
  await writeTags(folder, filled, info);
  await syncFolders(
    folder,
    filled.map(({ path }) => path),
  );
  const report = await checkBag(folder, ear);
  // Not before: who breaks off while all is read again goes on with it, and so does who has to mend it.
  if (report.valid) {
    await rm(join(folder, unfinishedName));
    await syncFolders(folder, []);
  }
  return report;
}

function sizeOf({ from }: BagSource): number {
  return 'text' in from ? new TextEncoder().encode(from.text).length : from.bytes;
}

async function begin(folder: string, name: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  const there = await readdir(folder);
  const text = await readFile(join(folder, unfinishedName), 'utf8').catch((thrown: unknown) => {
    if (errorCode(thrown) === 'ENOENT') return null;
    throw thrown;
  });
  if (there.length > 0 && text !== name)
    throw new SetsideError(
      'bag-there',
      text === null
        ? `${folder} holds something already`
        : `${folder} holds another bag that is not finished`,
      { cure: 'Name a folder that is new or empty. Nothing was written there.' },
    );
  await writeFile(join(folder, unfinishedName), name);
  // An attempt that was broken off while all was read again left one; what is written anew is no bag until its end.
  await rm(join(folder, 'bagit.txt'), { force: true });
}

/** A bag that is gone on with may hold files that are no longer in what it is made of: that is said, not deleted. */
async function refuseOthers(folder: string, paths: readonly string[]): Promise<void> {
  const wanted = new Set(paths.flatMap((path) => [path, `${path}.part`]));
  const there = await listFolder(folder);
  const other = [...there.files.keys(), ...there.others]
    .filter((path) => path.startsWith('data/'))
    .find((path) => !wanted.has(path.slice('data/'.length)));
  if (other === undefined) return;
  throw new SetsideError('bag-there', `${join(folder, other)} is not part of what the bag is made of now`, {
    cure: 'Begin anew in another folder: the job has changed since this bag was begun.',
  });
}

/** What is left free has to hold what is not there yet. */
async function needRoom(
  folder: string,
  sources: readonly BagSource[],
  paths: readonly string[],
  bytes: number,
): Promise<void> {
  const { files } = await listFolder(folder);
  const there = sources.reduce((sum, _, index) => sum + (files.get(`data/${paths[index]}`)?.bytes ?? 0), 0);
  const { bavail, bsize } = await statfs(folder);
  const free = bavail * bsize;
  if (free >= bytes - there) return;
  throw new SetsideError(
    'bag-no-room',
    `the bag needs ${sizePhrase(bytes - there)} more in ${folder}, ${sizePhrase(free)} are free`,
    { cure: 'Make room there, or name a folder on another disk; then run the same command again.' },
  );
}

/** The checksums of what an earlier attempt wrote, where it is proved right; null where it is to be written. */
async function heldSums(
  to: string,
  { sha256 }: BagSource,
  onBytes: (bytes: number) => Promise<void>,
  rest: () => Promise<void> = async () => {},
): Promise<Omit<Filled, 'path'> | null> {
  if (sha256 === null) return null;
  let bytes = 0;
  const sums = await readSums(to, made, async (count) => {
    bytes += count;
    await rest();
  });
  if ('why' in sums || sums.sha256 !== sha256 || sums.sha512 === undefined) return null;
  await onBytes(bytes);
  return { bytes, sha256, sha512: sums.sha512 };
}

/** `bagit.txt` and the manifests of the tags come last. */
async function writeTags(
  folder: string,
  filled: readonly Filled[],
  info: readonly InfoField[],
): Promise<void> {
  const bytes = filled.reduce((sum, file) => sum + file.bytes, 0);
  const fields = [
    ...info,
    { label: 'Payload-Oxum', value: oxumText({ bytes, files: filled.length }) },
    { label: 'Bag-Size', value: sizePhrase(bytes) },
  ];
  const texts = new Map([['bag-info.txt', infoText(fields)]]);
  for (const kind of made)
    texts.set(
      `manifest-${kind}.txt`,
      manifestText(filled.map((file) => ({ path: file.path, checksum: file[kind] }))),
    );
  const declaration = join(folder, 'bagit.txt.part');
  const tags: Filled[] = [{ path: 'bagit.txt', ...(await writeSynced(declaration, declarationText)) }];
  for (const [name, text] of texts)
    tags.push({ path: name, ...(await writeSynced(join(folder, name), text)) });
  for (const kind of made)
    await writeSynced(
      join(folder, `tagmanifest-${kind}.txt`),
      manifestText(tags.map((file) => ({ path: file.path, checksum: file[kind] }))),
    );
  await rename(declaration, join(folder, 'bagit.txt'));
}
