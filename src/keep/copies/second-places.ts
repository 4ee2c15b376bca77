import { resolve } from 'node:path';
import type { Finding } from '../../facts/index.ts';
import type { Keep } from '../keep.ts';
import type { Copier, PlaceAddress } from './copy-shapes.ts';
import { openCopier } from './copy-thread.ts';
import { readMarker } from './place-marker.ts';
import { type PlaceStatus, placeRetryMs, SecondPlace } from './second-place.ts';

export interface SecondPlacesOptions {
  readonly home: string;
  /** Folders of the places in use now. */
  readonly folders: readonly string[];
  readonly keep: Keep;
  readonly newId: () => string;
  /** Hears what is wrong with a place or a file, once each time it is found: `copy.*`. */
  readonly say: (finding: Finding) => void;
  /** Default: {@link placeRetryMs}. */
  readonly retryMs?: number;
  /** Default: a thread for each place. */
  readonly openCopier?: (address: PlaceAddress) => Copier;
}

export interface SecondPlaces {
  statuses(): readonly PlaceStatus[];
  close(): Promise<void>;
}

/**
 * Begins to copy to every place named. A place is known again by its marker, also under another folder. One that was
 * never used is journalled before it is marked.
 */
export async function openSecondPlaces(options: SecondPlacesOptions): Promise<SecondPlaces> {
  const { home, keep, newId, say, retryMs = placeRetryMs } = options;
  const open = options.openCopier ?? openCopier;
  const places: SecondPlace[] = [];
  for (const folder of new Set(options.folders.map((given) => resolve(given)))) {
    const known = knownPlace(keep, folder);
    const place = known?.place ?? newId();
    if (known?.folder !== folder) await keep.append({ type: 'place-made', place, folder });
    // A station that died between the record and the marker left a place that nothing was copied to.
    const isNew = known === null || !known.isUsed;
    const copier = open({ home, folder, place });
    places.push(new SecondPlace({ place, folder, isNew, copier, keep, retryMs, say }));
  }
  return {
    statuses: () => places.map((place) => place.status()),
    close: async () => {
      await Promise.all(places.map((place) => place.close()));
    },
  };
}

interface KnownPlace {
  readonly place: string;
  readonly folder: string;
  readonly isUsed: boolean;
}

function knownPlace(keep: Keep, folder: string): KnownPlace | null {
  const places = keep.places();
  const marked = markerOrNull(folder);
  const byMarker = marked === null ? undefined : places.get(marked);
  if (marked !== null && byMarker !== undefined) return { place: marked, folder: byMarker, isUsed: true };
  for (const [place, known] of places) {
    if (known === folder) return { place, folder, isUsed: keep.hasCopies(place) };
  }
  return null;
}

/** A place that cannot be read now is looked for again later. */
function markerOrNull(folder: string): string | null {
  try {
    return readMarker(folder);
  } catch {
    return null;
  }
}
