import type { LookOutcome } from './copy-shapes.ts';
import type { SecondPlaceOptions } from './place-options.ts';
import type { WaitingCopies } from './waiting-copies.ts';

/** Copies that a look through a place found not there as they were made: they count no more, and wait to be made anew. */
export class LostCopies {
  readonly #options: Pick<SecondPlaceOptions, 'keep' | 'say' | 'folder'>;
  readonly #waiting: WaitingCopies;
  /** Found since the look began. */
  #found = 0;

  constructor(options: Pick<SecondPlaceOptions, 'keep' | 'say' | 'folder'>, waiting: WaitingCopies) {
    this.#options = options;
    this.#waiting = waiting;
  }

  /**
   * Journals what is lost and puts it behind what waits already: the newest frames have no copy at all. Gives whether the
   * journal has more to say than before.
   */
  async found(place: string, lost: Extract<LookOutcome, { kind: 'looked' }>['lost']): Promise<boolean> {
    const records = lost.map(({ arrival, why }) => ({ type: 'copy-lost', arrival, place, why }) as const);
    try {
      await this.#options.keep.appendTogether(records);
    } catch {
      // The journal refuses while the home's disk is full or failing: the next look finds the same.
      return false;
    }
    this.#found += lost.length;
    this.#waiting.addBehind(lost.map(({ arrival }) => arrival));
    return lost.length > 0;
  }

  /** The look is through: says how many it found. */
  tell(): void {
    if (this.#found === 0) return;
    this.#options.say({ code: 'copy.lost', args: { folder: this.#options.folder, count: this.#found } });
    this.#found = 0;
  }
}
