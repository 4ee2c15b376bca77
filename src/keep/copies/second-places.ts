import { resolve } from 'node:path';
import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import type { OriginalTrouble } from '../core/verified.ts';
import type { Keep } from '../keep.ts';
import { openCopier } from './copy-process.ts';
import type { Copier, CopyWay } from './copy-shapes.ts';
import type { PlaceStatus } from './place-options.ts';
import { SecondPlace } from './second-place.ts';

export interface SecondPlacesOptions {
  readonly home: string;
  /** Folders of the places in use now. */
  readonly folders: readonly string[];
  /** Whether places in memory count. Default: they do not, since the power takes them along. */
  readonly memoryCounts?: boolean;
  readonly keep: Keep;
  readonly newId: () => string;
  /** Hears what is wrong with a place or a file, once each time it is found: `copy.*`. */
  readonly say: (finding: Finding) => void;
  /** Hears of an original that is not as it was received, and null once it was read and is. */
  readonly original?: (file: KeptFile, trouble: OriginalTrouble | null) => void;
  /** How soon a place that is away is looked for again. */
  readonly retryMs?: number;
  /** How soon a place is looked through again for the copies it should hold. */
  readonly lookEveryMs?: number;
  /** Default: a process for each place. */
  readonly openCopier?: (way: CopyWay) => Copier;
}

export interface SecondPlaces {
  statuses(): readonly PlaceStatus[];
  /** All originals were read by somebody else: those that waited since they were bad, and are not, are tried at once. */
  originalsRead(isBad: (arrival: string) => boolean): void;
  close(): Promise<void>;
}

/** A place that is away, full or broken is looked for again after this. */
const placeRetryMs = 5000;
/**
 * A place that was pulled out or emptied is noticed after so long at the latest, while nothing is copied. Names and sizes
 * come from the system's memory as a rule, so that a disk that rests is not woken by it.
 */
const lookEveryMs = 2 * 60_000;

/** Begins to copy to every folder named. Returns at once: no disk but the home's own is touched from here. */
export function openSecondPlaces(options: SecondPlacesOptions): SecondPlaces {
  const { home, keep, newId, say, retryMs = placeRetryMs, original = () => {} } = options;
  const memoryCounts = options.memoryCounts ?? false;
  const every = options.lookEveryMs ?? lookEveryMs;
  const open = options.openCopier ?? openCopier;
  const folders = new Set(options.folders.map((given) => resolve(given)));
  const places = [...folders].map((folder) => {
    const copier = open({ home, folder, memoryCounts });
    return new SecondPlace({ folder, copier, keep, newId, retryMs, lookEveryMs: every, say, original });
  });
  return {
    statuses: () => places.map((place) => place.status()),
    originalsRead: (isBad) => {
      for (const place of places) place.originalsRead(isBad);
    },
    close: async () => {
      await Promise.all(places.map((place) => place.close()));
    },
  };
}
