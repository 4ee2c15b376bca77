import { join } from 'node:path';
import type { KeepContext } from './context.ts';
import type { Disk } from './disk.ts';
import { arrivalsByIncoming, type IncomingWhy, whyHeld } from './incoming-held.ts';

/** A file in the home that no frame shows. A person looks and decides, where nothing proves that its bytes are held. */
export interface Leftover {
  /** Absolute. */
  readonly path: string;
  readonly sizeBytes: number;
  readonly why: Exclude<IncomingWhy, 'arriving' | 'waiting'>;
}

export async function listLeftovers(context: KeepContext): Promise<Leftover[]> {
  return [...(await incomingLeftovers(context)), ...(await originalLeftovers(context))];
}

async function incomingLeftovers(context: KeepContext): Promise<Leftover[]> {
  const { disk, folders, state } = context;
  const entries = await disk.list(folders.incomingFolder);
  const byName = arrivalsByIncoming(state, entries);
  return entries.flatMap(({ name, sizeBytes }) => {
    const why = whyHeld(byName.get(name));
    return why === 'arriving' || why === 'waiting' ? [] : [{ path: folders.incoming(name), sizeBytes, why }];
  });
}

/** Files below `jobs/CODE/originals` that no record names. */
async function originalLeftovers(context: KeepContext): Promise<Leftover[]> {
  const { disk, folders, state } = context;
  const known = new Set(state.originals().map((path) => folders.original(path)));
  const leftovers: Leftover[] = [];
  const jobs = join(folders.home, 'jobs');
  for (const job of await disk.list(jobs)) {
    const originals = join(jobs, job.name, 'originals');
    for await (const { path, sizeBytes } of filesUnder(disk, originals)) {
      if (!known.has(path)) leftovers.push({ path, sizeBytes, why: 'unrecorded' });
    }
  }
  return leftovers;
}

async function* filesUnder(disk: Disk, folder: string): AsyncGenerator<{ path: string; sizeBytes: number }> {
  if ((await disk.stat(folder))?.kind !== 'folder') return;
  for (const { name, kind, sizeBytes } of await disk.list(folder)) {
    const path = join(folder, name);
    if (kind === 'folder') yield* filesUnder(disk, path);
    else yield { path, sizeBytes };
  }
}
