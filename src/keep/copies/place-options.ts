import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/arrival-records.ts';
import type { OriginalTrouble } from '../core/verified.ts';
import type { Keep } from '../keep.ts';
import type { Copier } from './copy-shapes.ts';

/** What can be said of a second place now. */
export interface PlaceStatus {
  /** Id of the place. */
  readonly place: string;
  readonly folder: string;
  /** What is wrong with the place, else with originals that wait for it in vain; null while all is well: `copy.*`. */
  readonly finding: Finding | null;
  /** Originals not there yet. */
  readonly waiting: number;
  /** False where its copies do not count: it lies on the home's own device, or in memory. Null while it is away. */
  readonly otherDevice: boolean | null;
  /** Why its copies do not count: `copy.same-device`, `copy.in-memory`; null where they do, and while it is away. */
  readonly countsNot: Finding | null;
}

/** What a second place needs of `keep`. */
export type PlaceKeep = Pick<
  Keep,
  | 'append'
  | 'appendTogether'
  | 'places'
  | 'hasCopies'
  | 'keptWithoutCopy'
  | 'copiesIn'
  | 'keptFile'
  | 'on'
  | 'onRecord'
>;

export interface SecondPlaceOptions {
  readonly folder: string;
  readonly copier: Copier;
  readonly keep: PlaceKeep;
  readonly newId: () => string;
  /** How soon a place that is away is looked for again. */
  readonly retryMs: number;
  /** How soon a place is looked through again for the copies it should hold. */
  readonly lookEveryMs: number;
  /** Hears what is wrong with the place or with a file, once each time it is found: `copy.*`. */
  readonly say: (finding: Finding) => void;
  /** Hears of an original that is not as it was received, and null once it was read and is. Each time it was tried. */
  readonly original: (file: KeptFile, trouble: OriginalTrouble | null) => void;
}
