import { errorMessage } from '../../base/index.ts';
import type { PlaceLies, PlaceTrouble } from './copy-shapes.ts';
import type { Patience } from './patience.ts';
import { countsNotFinding, placeFinding } from './place-findings.ts';
import type { PlaceKeep, SecondPlaceOptions } from './place-options.ts';
import type { PlaceTroubles } from './place-troubles.ts';

export interface PresenceEvents {
  /** The folder holds another place than was thought: what it lacks has to be listed anew. */
  isAnother(): void;
  /** The place is not there. Anything may become of what lies in it meanwhile. */
  isGone(): void;
}

/**
 * Which second place a folder holds, whether it is there, and how it lies beside the home. A place is known by its marker,
 * so that it is the same under another folder; one that was never used is journalled, then marked.
 */
export class PlacePresence {
  readonly #options: SecondPlaceOptions;
  readonly #troubles: PlaceTroubles;
  readonly #patience: Patience;
  readonly #events: PresenceEvents;
  #place: string;
  #lies: PlaceLies | null = null;

  constructor(
    options: SecondPlaceOptions,
    troubles: PlaceTroubles,
    patience: Patience,
    events: PresenceEvents,
  ) {
    this.#options = options;
    this.#troubles = troubles;
    this.#patience = patience;
    this.#events = events;
    this.#place = placeAt(options.keep, options.folder) ?? options.newId();
  }

  /** Id of the place. */
  get place(): string {
    return this.#place;
  }

  /** Null while it is away. */
  get lies(): PlaceLies | null {
    return this.#lies;
  }

  async isReady(): Promise<boolean> {
    if (!this.#troubles.has('place') && this.#lies !== null) return true;
    const { copier, keep } = this.#options;
    const check = await this.#patience.heard(0, copier.check(this.#place, false));
    if (check.kind === 'ready') return this.#go(check.lies);
    if (check.trouble === 'foreign' && keep.places().has(check.why)) {
      return this.#becomes(check.why, false);
    }
    const isUsed = keep.hasCopies(this.#place);
    return check.trouble === 'away' && !isUsed ? this.#becomes(this.#place, true) : this.stop(check);
  }

  /** Takes it for away, and says why, until it is ready again. */
  stop(trouble: PlaceTrouble): false {
    this.#lies = null;
    this.#events.isGone();
    this.#troubles.found('place', placeFinding(trouble, this.#options.folder));
    return false;
  }

  #go(lies: PlaceLies): true {
    const isNews = this.#lies !== lies;
    this.#lies = lies;
    this.#troubles.over('place');
    // No reason not to copy, so no trouble of the place: but whoever reads the terminal should not feel safe.
    const countsNot = countsNotFinding(lies, this.#options.folder);
    if (isNews && countsNot !== null) this.#options.say(countsNot);
    return true;
  }

  /** The place that is there, or one that is made now. The journal knows it before its marker is written. */
  async #becomes(place: string, isNew: boolean): Promise<boolean> {
    const { keep, copier, folder } = this.#options;
    try {
      if (keep.places().get(place) !== folder) await keep.append({ type: 'place-made', place, folder });
    } catch (thrown) {
      return this.stop({ kind: 'place', trouble: 'failed', why: errorMessage(thrown) });
    }
    this.#place = place;
    this.#events.isAnother();
    const check = await this.#patience.heard(0, copier.check(place, isNew));
    return check.kind === 'ready' ? this.#go(check.lies) : this.stop(check);
  }
}

/** The place that was last known under a folder. */
function placeAt(keep: PlaceKeep, folder: string): string | null {
  for (const [place, known] of keep.places()) if (known === folder) return place;
  return null;
}
