import type { KeptFile } from '../core/arrival-records.ts';
import { CopyLook } from './copy-look.ts';
import type { CopyOutcome, PlaceTrouble } from './copy-shapes.ts';
import { LostCopies } from './lost-copies.ts';
import { Nap } from './nap.ts';
import { Patience } from './patience.ts';
import { countsNotFinding, fileFinding, originalTrouble, placeFinding } from './place-findings.ts';
import type { PlaceStatus, SecondPlaceOptions } from './place-options.ts';
import { PlacePresence } from './place-presence.ts';
import { PlaceTroubles, type TroubleAbout } from './place-troubles.ts';
import { RoomLeft } from './room-left.ts';
import { WaitingCopies } from './waiting-copies.ts';

/** A file that could not be copied is tried again after this; the others go first. */
const retryFileMs = 10 * 60_000;
/** Marks and remarks come in flurries: the journal is copied when it has been quiet for so long. */
const journalQuietMs = 1000;

/** What came of a piece of work: there may be more, all is done for now, or the place refused it. */
type Worked = 'more' | 'all' | 'refused';

/**
 * Copies everything that is kept to one second place, behind the camera: the newest first, one at a time, and the
 * journal after them. A place that refuses rests before it is tried again, and is told until it takes what it refused; a place that was away is caught up with when it is back. Copies that
 * are not there any more, or not in their size, count no longer and are made anew.
 */
export class SecondPlace {
  readonly #options: SecondPlaceOptions;
  readonly #waiting = new WaitingCopies();
  readonly #troubles: PlaceTroubles;
  readonly #patience: Patience;
  readonly #presence: PlacePresence;
  readonly #room: RoomLeft;
  #journalIsBehind = true;
  readonly #look: CopyLook;
  readonly #lost: LostCopies;
  #closed = false;
  readonly #nap = new Nap();
  /** After a refusal. New frames do not cut it short. */
  readonly #rest = new Nap();
  readonly #timers = new Set<NodeJS.Timeout>();
  readonly #stopHearing: readonly (() => void)[];
  readonly #running: Promise<void>;

  constructor(options: SecondPlaceOptions) {
    this.#options = options;
    this.#look = new CopyLook(options.lookEveryMs);
    // A copier that is ended with the station gives no news of the place.
    this.#troubles = new PlaceTroubles(options.folder, (finding) => {
      if (!this.#closed) options.say(finding);
    });
    this.#room = new RoomLeft(options.retryMs);
    this.#patience = new Patience(options.folder, this.#troubles);
    this.#presence = new PlacePresence(options, this.#troubles, this.#patience, {
      isAnother: () => this.#listWaiting(),
      isGone: () => this.#look.startAgain(),
    });
    this.#lost = new LostCopies(options, this.#waiting);
    this.#listWaiting();
    this.#stopHearing = [
      options.keep.on((event) => {
        if (event.type !== 'kept' && event.type !== 'damaged') return;
        if (event.insteadOf !== null) this.#waiting.isReplaced(event.insteadOf);
        this.#add(event.arrival);
      }),
      options.keep.onRecord((record) => {
        // Word of a copy is worth copying too, but not a round of its own.
        if (record.type !== 'copied' && record.type !== 'copy-lost')
          this.#soon(journalQuietMs, () => this.#journalChanged());
      }),
    ];
    this.#running = this.#run();
  }

  status(): PlaceStatus {
    const { place, lies } = this.#presence;
    return {
      place,
      folder: this.#options.folder,
      finding: this.#troubles.worst() ?? this.#waiting.finding(),
      waiting: this.#waiting.count,
      otherDevice: lies === null ? null : lies === 'apart',
      countsNot: countsNotFinding(lies, this.#options.folder),
    };
  }

  /** All originals were read elsewhere: what waited since it was bad, and is not by this, is tried again at once. */
  originalsRead(isBad: (arrival: string) => boolean): void {
    this.#waiting.originalsRead(isBad);
    this.#nap.wake();
  }

  /** Ends after the file that is being copied; what is left is copied after the next start. */
  async close(): Promise<void> {
    this.#closed = true;
    for (const stop of this.#stopHearing) stop();
    for (const timer of this.#timers) clearTimeout(timer);
    this.#nap.wake();
    this.#rest.wake();
    await this.#options.copier.close();
    await this.#running;
  }

  async #run(): Promise<void> {
    while (!this.#closed) {
      const worked = (await this.#presence.isReady()) ? await this.#workOn() : 'refused';
      if (worked === 'refused') await this.#rest.sleep(this.#options.retryMs);
      else if (worked === 'all') await this.#nap.sleep(this.#dueInMs());
    }
  }

  #dueInMs(): number {
    const lookMs = this.#look.dueInMs();
    return this.#room.isFull ? Math.min(lookMs, this.#room.retryInMs()) : lookMs;
  }

  /** A part of the look where one is due, and the next copy; with neither, the journal. */
  async #workOn(): Promise<Worked> {
    const looked = await this.#lookOn();
    if (looked === 'refused') return looked;
    const next = this.#waiting.newest((arrival) => this.#mayTake(arrival));
    if (next !== null) return this.#copyNext(next);
    if (this.#waiting.newest() === null) this.#nothingWaits();
    if (this.#journalIsBehind && looked === 'all') return this.#copyJournal();
    return looked;
  }

  #mayTake(arrival: string): boolean {
    return this.#room.mayTake(this.#options.keep.keptFile(arrival)?.sizeBytes ?? 0);
  }

  /** What failed to be copied, or found no room, waits no more: another stands for it. */
  #nothingWaits(): void {
    this.#room.nothingWaits();
    this.#troubles.over('copy', 'idle');
  }

  /** `all` where no look is due. */
  async #lookOn(): Promise<Worked> {
    const { keep, copier } = this.#options;
    const { place } = this.#presence;
    const copies = this.#look.next(() => keep.copiesIn(place));
    if (copies === null) return 'all';
    const beganMs = performance.now();
    const outcome = await this.#patience.heard(0, copier.look(place, copies));
    if (outcome.kind === 'place') return this.#refused('look', outcome);
    this.#troubles.over('look');
    this.#look.done(performance.now() - beganMs);
    if (outcome.journalIsBehind) this.#journalIsBehind = true;
    if (await this.#lost.found(place, outcome.lost)) this.#journalIsBehind = true;
    if (this.#look.dueInMs() > 0) this.#lost.tell();
    return 'more';
  }

  #listWaiting(): void {
    this.#waiting.list(this.#options.keep.keptWithoutCopy(this.#presence.place));
  }

  async #copyNext(arrival: string): Promise<Worked> {
    const { keep, copier, folder } = this.#options;
    const { place } = this.#presence;
    const file = keep.keptFile(arrival);
    if (file === null) {
      this.#waiting.done(arrival);
      return 'more';
    }
    const outcome = await this.#patience.heard(file.sizeBytes, copier.copy(place, file));
    if (outcome.kind === 'place' && outcome.trouble === 'full') {
      this.#room.foundNone(file.sizeBytes);
      this.#troubles.found('copy', placeFinding(outcome, folder));
      return 'more';
    }
    if (outcome.kind === 'place') return this.#refused('copy', outcome);
    this.#noteOriginal(file, outcome);
    if (outcome.kind === 'copied') {
      this.#room.took(file.sizeBytes);
      if (!this.#room.isFull) this.#troubles.over('copy');
      const { readBack, otherDevice } = outcome;
      // The journal refuses while the home's disk is full or failing: the copy is found there at the next try.
      await keep
        .append({ type: 'copied', arrival: file.arrival, place, readBack, otherDevice })
        .catch(() => this.#later(file));
    } else {
      this.#options.say(fileFinding(outcome, file, folder));
      this.#later(file);
    }
    this.#waiting.done(file.arrival);
    this.#journalIsBehind = true;
    return 'more';
  }

  #noteOriginal(file: KeptFile, outcome: CopyOutcome): void {
    const trouble = originalTrouble(outcome);
    this.#waiting.found(file, trouble);
    // A copy that lay there already says nothing of the original.
    if (trouble !== null || (outcome.kind === 'copied' && outcome.originalRead))
      this.#options.original(file, trouble);
  }

  async #copyJournal(): Promise<Worked> {
    this.#journalIsBehind = false;
    const outcome = await this.#patience.heard(0, this.#options.copier.copyJournal(this.#presence.place));
    if (outcome.kind === 'copied') {
      this.#troubles.over('journal');
      return 'more';
    }
    this.#journalIsBehind = true;
    if (outcome.kind === 'place') return this.#refused('journal', outcome);
    this.#troubles.found('journal', {
      code: 'copy.journal-differs',
      args: { folder: this.#options.folder },
    });
    return 'refused';
  }

  /** The place is there, perhaps, and does not take what was tried in it. */
  #refused(about: TroubleAbout, trouble: PlaceTrouble): 'refused' {
    // The copier is ended with the station: that is no trouble of the place.
    if (this.#closed) return 'refused';
    if (trouble.trouble === 'full' || trouble.trouble === 'failed')
      this.#troubles.found(about, placeFinding(trouble, this.#options.folder));
    else this.#presence.stop(trouble);
    return 'refused';
  }

  #add(arrival: string): void {
    this.#waiting.add(arrival);
    this.#nap.wake();
  }

  #later(file: KeptFile): void {
    this.#waiting.putOff(file.arrival);
    this.#soon(retryFileMs, () => {
      this.#waiting.tryAgain(file.arrival);
      this.#nap.wake();
    });
  }

  #journalChanged(): void {
    this.#journalIsBehind = true;
    this.#nap.wake();
  }

  #soon(afterMs: number, work: () => void): void {
    if (this.#closed) return;
    const timer = setTimeout(() => {
      this.#timers.delete(timer);
      work();
    }, afterMs);
    timer.unref();
    this.#timers.add(timer);
  }
}
