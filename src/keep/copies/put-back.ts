import { join, relative, sep } from 'node:path';
import { SetsideError } from '../../base/index.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import { KeepState } from '../core/keep-state.ts';
import { replayJournal } from '../journal-reader.ts';
import { nodeDisk } from '../node-disk.ts';
import { bring } from './copy-file.ts';
import { checkPlace } from './place-marker.ts';
import { copyFinding } from './verify-copies.ts';

/** What became of one original that was to be put back. */
export type PutBackOutcome = Pick<KeptFile, 'arrival' | 'frame' | 'original'> &
  (
    | {
        readonly kind: 'put-back';
        readonly place: string;
        readonly folder: string;
        readonly aside: string | null;
      }
    /** It lies in the home as the camera sent it: nothing was done. */
    | { readonly kind: 'as-received' }
    /** No place that could be read holds it as it was sent; `away` those that may. */
    | { readonly kind: 'no-copy'; readonly away: readonly string[] }
    /** The home's disk does not take it, in the system's words. */
    | { readonly kind: 'failed'; readonly why: string }
  );

/**
 * Puts originals back from the first second place whose copy is read and is as the camera sent it, also from one that is
 * given up. What lay under the name is moved to `set-aside/` of the home, never written over. Writes nothing into the
 * journal: whoever holds it notes what was put back. Takes the calling thread. `names` are arrivals, paths below the home,
 * or names of files; all that bear one are looked at. Rejects `no-original` where none does, and where the journal cannot
 * be read.
 */
export async function putBack(home: string, names: readonly string[]): Promise<PutBackOutcome[]> {
  const state = new KeepState();
  await replayJournal(nodeDisk(), join(home, 'journal'), (record) => state.apply(record));
  const kept = [...state.arrivals.values()].flatMap(({ phase, replacedBy }) =>
    phase.kind === 'kept' && replacedBy === null ? [phase.file] : [],
  );
  const unknown = names.find((name) => !kept.some((file) => isNamed(file, name)));
  if (unknown !== undefined)
    throw new SetsideError('no-original', `no original is kept under ${unknown}`, {
      cure: 'Name it as setside verify does, or by the name of its file.',
    });
  return kept.flatMap((file) => {
    if (!names.some((name) => isNamed(file, name))) return [];
    const { arrival, frame, original } = file;
    return [{ arrival, frame, original, ...fromPlaces(home, file, state.places) }];
  });
}

function isNamed({ arrival, original, name }: KeptFile, wanted: string): boolean {
  return [arrival, original, name].includes(wanted) || original.endsWith(`/${wanted}`);
}

type Outcome<All = PutBackOutcome> = All extends PutBackOutcome
  ? Omit<All, 'arrival' | 'frame' | 'original'>
  : never;

function fromPlaces(home: string, file: KeptFile, places: ReadonlyMap<string, string>): Outcome {
  // What is wrong with a copy is what is wrong with a file: the home is asked in the same way.
  if (copyFinding(home, file) === null) return { kind: 'as-received' };
  const away: string[] = [];
  for (const [place, folder] of places) {
    if (checkPlace({ home, folder, place }).kind === 'place') {
      away.push(folder);
      continue;
    }
    // Read before anything is written: a bad copy leaves nothing behind.
    if (copyFinding(folder, file) !== null) continue;
    const brought = bring(folder, home, file);
    if (brought.kind === 'brought') {
      if (brought.wasThere) return { kind: 'as-received' };
      const aside = brought.aside === null ? null : relative(home, brought.aside).split(sep).join('/');
      return { kind: 'put-back', place, folder, aside };
    }
    if (brought.kind === 'place') return { kind: 'failed', why: brought.why };
    if (brought.kind === 'differs') return { kind: 'failed', why: 'what was written reads back wrong' };
  }
  return { kind: 'no-copy', away };
}
