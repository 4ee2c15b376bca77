import { join } from 'node:path';
import type { KeepContext } from './context.ts';
import type { KnownArrival } from './core/keep-state.ts';
import type { Disk } from './disk.ts';

/** A file in the home that no frame shows. Nothing is ever done to it: a person looks and decides. */
export interface Leftover {
  /** Absolute. */
  readonly path: string;
  readonly sizeBytes: number;
  /**
   * `same-as-original`: sent again though it was kept, byte for byte. `made-good`: cut, and whole by a later arrival.
   * `let-go`: a person waits for it no longer. `moved`: a second name of a kept file, left by a crash.
   * `unrecorded`: the journal does not know it.
   */
  readonly why: 'same-as-original' | 'made-good' | 'let-go' | 'moved' | 'unrecorded';
}

export async function listLeftovers(context: KeepContext): Promise<Leftover[]> {
  return [...(await incomingLeftovers(context)), ...(await originalLeftovers(context))];
}

async function incomingLeftovers(context: KeepContext): Promise<Leftover[]> {
  const { disk, folders, state } = context;
  const byName = new Map([...state.arrivals.values()].map((arrival) => [arrival.incoming, arrival]));
  const entries = await disk.list(folders.incomingFolder);
  return entries.flatMap(({ name, sizeBytes }) => {
    const why = reason(byName.get(name));
    return why === null ? [] : [{ path: folders.incoming(name), sizeBytes, why }];
  });
}

function reason(known: KnownArrival | undefined): Leftover['why'] | null {
  if (known === undefined) return 'unrecorded';
  switch (known.phase.kind) {
    case 'again':
      return 'same-as-original';
    case 'kept':
      return 'moved';
    case 'broken-off':
      return known.phase.settled === 'no' ? null : known.phase.settled;
    case 'arriving':
    case 'settling':
      return null;
  }
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
