import type { KeepState } from './core/keep-state.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import type { Disk, DiskEntry } from './disk.ts';

/**
 * Why a file lies in `incoming/`. `arriving`: it is on its way. `waiting`: it broke off and is waited for.
 * `same-as-original`: sent again though it was kept, byte for byte. `made-good`: cut, and whole by a later arrival.
 * `let-go`: a person waits for it no longer. `folded`: another file holds its bytes; it is about to go. `moved`: a second
 * name of a kept file, left by a crash. `unrecorded`: the journal does not know it.
 */
export type IncomingWhy =
  | 'arriving'
  | 'waiting'
  | 'same-as-original'
  | 'made-good'
  | 'let-go'
  | 'folded'
  | 'moved'
  | 'unrecorded';

export interface IncomingHeld {
  readonly why: IncomingWhy;
  readonly files: number;
  readonly bytes: number;
}

/** How much lies in `incoming/`, by why it does; nothing of what is not there. */
export async function heldInIncoming(disk: Disk, folder: string, state: KeepState): Promise<IncomingHeld[]> {
  const isThere = (await disk.stat(folder))?.kind === 'folder';
  const entries = isThere ? await disk.list(folder) : [];
  const known = arrivalsByIncoming(state, entries);
  const held = new Map<IncomingWhy, IncomingHeld>();
  for (const { name, sizeBytes } of entries) {
    const why = whyHeld(known.get(name));
    const { files, bytes } = held.get(why) ?? { files: 0, bytes: 0 };
    held.set(why, { why, files: files + 1, bytes: bytes + sizeBytes });
  }
  return [...held.values()];
}

/** The arrivals whose names in `incoming/` these are. */
export function arrivalsByIncoming(
  state: KeepState,
  entries: readonly DiskEntry[],
): Map<string, KnownArrival> {
  const wanted = new Set(entries.map(({ name }) => name));
  const known = new Map<string, KnownArrival>();
  for (const arrival of state.arrivals.values()) {
    if (wanted.has(arrival.incoming)) known.set(arrival.incoming, arrival);
  }
  return known;
}

export function whyHeld(known: KnownArrival | undefined): IncomingWhy {
  if (known === undefined) return 'unrecorded';
  if (known.folded !== null) return 'folded';
  switch (known.phase.kind) {
    case 'again':
      return 'same-as-original';
    case 'kept':
      return 'moved';
    case 'broken-off':
      return known.phase.settled === 'no' ? 'waiting' : known.phase.settled;
    case 'arriving':
    case 'settling':
      return 'arriving';
  }
}
