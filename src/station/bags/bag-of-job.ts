import { lstat } from 'node:fs/promises';
import { isAbsolute, join, relative, resolve } from 'node:path';
import { type BagEar, type BagReport, type BagSource, makeBag } from '../../bagging/index.ts';
import { epochMsToRfc3339, SetsideError } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type JobContents, readJobContents } from '../../keep/index.ts';
import { version } from '../version.ts';
import { deliveriesToPack } from './deliveries-to-pack.ts';

export interface JobBag extends BagReport {
  /** Files of the job that are on the way or broken off: not in the bag. */
  readonly unfinished: number;
  readonly originals: number;
  /** Deliveries that are not in it, since they did not come to their end. */
  readonly leftOut: readonly Finding[];
}

/**
 * Makes a bag of a job: its originals as they lie in the home, their sidecars, what was delivered, the looks that it names,
 * and what the journal says of it. By journal and files alone, so beside a station or without one. Rejects what
 * `readJobContents` and `makeBag` do, and `bag-in-home`.
 */
export async function bagOfJob(
  home: string,
  code: string,
  folder: string,
  nowMs: number,
  ear: BagEar = {},
): Promise<JobBag> {
  if (isBelow(folder, home))
    throw new SetsideError('bag-in-home', `${folder} lies in the home ${home}`, {
      cure: 'Name a folder elsewhere, best on another disk: what fails with the home keeps nothing for later.',
    });
  const contents = await readJobContents(home, code);
  const deliveries = `jobs/${code}/deliveries`;
  const delivered = await deliveriesToPack(join(home, ...deliveries.split('/')));
  const sources = [
    ...contents.originals.map(({ original, sizeBytes, sha256 }) => ({
      ...fileBelow(home, original, sizeBytes),
      sha256,
    })),
    ...(await sidecarsOf(home, contents)),
    ...delivered.files.map(({ path, bytes }) => fileBelow(home, `${deliveries}/${path}`, bytes)),
    ...looksOf(contents),
    journalOf(contents),
  ];
  const info = [
    { label: 'Bag-Software-Agent', value: `Setside ${version}` },
    { label: 'Bagging-Date', value: epochMsToRfc3339(nowMs).slice(0, 10) },
    { label: 'External-Identifier', value: code },
    { label: 'External-Description', value: descriptionOf(contents, code) },
  ];
  const report = await makeBag({ folder, name: code, sources, info }, ear);
  const { unfinished, originals } = contents;
  return { ...report, unfinished, originals: originals.length, leftOut: delivered.leftOut };
}

function isBelow(folder: string, home: string): boolean {
  const way = relative(resolve(home), resolve(folder));
  return !way.startsWith('..') && !isAbsolute(way);
}

/** In the bag everything lies where it lies in the home. */
function fileBelow(home: string, path: string, bytes: number): BagSource {
  return { path, from: { file: join(home, ...path.split('/')), bytes }, sha256: null };
}

async function sidecarsOf(home: string, { originals }: JobContents): Promise<BagSource[]> {
  const sources = new Map<string, BagSource>();
  for (const { original } of originals) {
    const match = /^(jobs\/[^/]+)\/originals\/(.+)$/.exec(original);
    if (match === null) continue;
    const beside = `${match[1]}/sidecars/${match[2]}`;
    for (const path of [`${beside.replace(/\.[^./]*$/, '')}.xmp`, `${beside}.xmp`]) {
      const found = await lstat(join(home, ...path.split('/'))).catch(() => null);
      if (found?.isFile() === true) sources.set(path, fileBelow(home, path, found.size));
    }
  }
  return [...sources.values()];
}

function looksOf({ looks }: JobContents): BagSource[] {
  return looks.map(({ look, document }) => ({
    path: `looks/${look}.json`,
    from: { text: `${JSON.stringify(document, null, 2)}\n` },
    sha256: null,
  }));
}

/** The records as they stand in the journal, one JSON document a line. */
function journalOf({ records }: JobContents): BagSource {
  const text = records.map((record) => `${JSON.stringify(record)}\n`).join('');
  return { path: 'journal-extract.jsonl', from: { text }, sha256: null };
}

function descriptionOf({ records }: JobContents, code: string): string {
  const described = records.findLast((record) => record.type === 'job-described');
  if (described?.type !== 'job-described') return code;
  return [described.title, described.client].filter((word) => word !== '').join(', ') || code;
}
