import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type JournalRecord, openKeep } from '../../src/keep/index.ts';
import { unheldArrivals } from './held-bytes.ts';

/** What lies in a home whose station is gone, found without asking the station. */
export interface HomeFacts {
  /** SHA-256 of every file below an `originals/`, by path. */
  readonly originals: ReadonlyMap<string, string>;
  /** Files that neither a record nor the list of leftovers names. */
  readonly unlisted: readonly string[];
  /** Arrivals of whose journalled bytes some are nowhere any more. */
  readonly unheld: readonly string[];
  /** Attempts whose bytes another file holds for them. */
  readonly folded: number;
}

export async function lookInto(home: string): Promise<HomeFacts> {
  const originals = new Map<string, string>();
  for (const path of await filesBelow(join(home, 'jobs'))) {
    originals.set(
      path,
      createHash('sha256')
        .update(await readFile(path))
        .digest('hex'),
    );
  }
  const named = new Set<string>();
  const records: JournalRecord[] = [];
  const keep = await openKeep({
    home,
    inspect: async () => ({ kind: 'unknown' }),
    newId: randomUUID,
    now: Date.now,
    jobOf: () => 'unsorted',
    diskFloorBytes: 0,
    hashWorkers: 0,
  });
  try {
    for await (const record of keep.records()) {
      records.push(record);
      if (record.type === 'announced') named.add(join(home, 'incoming', record.incoming));
      if (record.type === 'kept') named.add(join(home, record.original));
    }
    for (const { path } of await keep.leftovers()) named.add(path);
  } finally {
    await keep.close();
  }
  const there = [...originals.keys(), ...(await filesBelow(join(home, 'incoming')))];
  return {
    originals,
    unlisted: there.filter((path) => !named.has(path)),
    unheld: await unheldArrivals(home, records),
    folded: records.filter(({ type }) => type === 'folded').length,
  };
}

async function filesBelow(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
}
