import { errorMessage } from '../../base/index.ts';
import type { KeptFile } from '../core/records.ts';
import { CopyLook } from './copy-look.ts';
import type { CopyOutcome, LookOutcome, PlaceLies, PlaceTrouble } from './copy-shapes.ts';
import { Nap } from './nap.ts';
import { countsNotFinding, fileFinding, originalTrouble, placeFinding } from './place-findings.ts';
import type { PlaceKeep, PlaceStatus, SecondPlaceOptions } from './place-options.ts';
import { PlaceTroubles, type TroubleAbout } from './place-troubles.ts';
import { RoomLeft } from './room-left.ts';
import { WaitingCopies } from './waiting-copies.ts';

/** A file that could not be copied is tried again after this; the others go first. */
const retryFileMs = 10 * 60_000;
/** Marks and remarks come in flurries: the journal is copied when it has been quiet for so long. */
const journalQuietMs = 1000;

/** A call that has not come back for so long, and longer for what takes its time at so many bytes a second, hangs. */
const silentAfterMs = 60_000;
const slowestBytesPerSecond = 2e6;

/** What came of a piece of work: there may be more, all is done for now, or the place refused it. */
type Worked = 'more' | 'all' | 'refused';

/**
 * Copies everything that is kept to one second place, behind the camera: the newest first, one at a time, and the
 * journal after them. A place that refuses rests before it is tried again, and is told until it takes what it refused; a place that was away is caught up with when it is back. Copies that
 * are not there any more, or not in their size, count no longer and are made anew. A place is known by its marker, so that it is the same under another folder; one that was never used is journalled, then marked.
 */
export class SecondPlace {
  readonly #options: SecondPlaceOptions;
  readonly #waiting = new WaitingCopies();
  /** Id of the place, once it is known. */
  #place: string;
  /** Null while it is away. */
  #lies: PlaceLies | null = null;
  readonly #troubles: PlaceTroubles;
  readonly #room: RoomLeft;
  #journalIsBehind = true;
  readonly #look: CopyLook;
  /** Found lost since the look began. */
  #lost = 0;
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
    this.#troubles = new PlaceTroubles(options.say);
    this.#room = new RoomLeft(options.retryMs);
    this.#place = placeAt(options.keep, options.folder) ?? options.newId();
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
    return {
      place: this.#place,
      folder: this.#options.folder,
      finding: this.#troubles.worst() ?? this.#waiting.finding(),
      waiting: this.#waiting.count,
      otherDevice: this.#lies === null ? null : this.#lies === 'apart',
      countsNot: countsNotFinding(this.#lies, this.#options.folder),
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
      const worked = (await this.#isReady()) ? await this.#workOn() : 'refused';
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
    this.#troubles.over('copy');
  }

  /** `all` where no look is due. */
  async #lookOn(): Promise<Worked> {
    const { keep, copier } = this.#options;
    const place = this.#place;
    const copies = this.#look.next(() => keep.copiesIn(place));
    if (copies === null) return 'all';
    const beganMs = performance.now();
    const outcome = await this.#heard(0, copier.look(place, copies));
    if (outcome.kind === 'place') return this.#refused('look', outcome);
    this.#troubles.over('look');
    this.#look.done(performance.now() - beganMs);
    if (outcome.journalIsBehind) this.#journalIsBehind = true;
    await this.#countNoMore(outcome.lost);
    if (this.#look.dueInMs() > 0 && this.#lost > 0) {
      this.#options.say({ code: 'copy.lost', args: { folder: this.#options.folder, count: this.#lost } });
      this.#lost = 0;
    }
    return 'more';
  }

  /** Journals what is lost and puts it behind what waits already: the newest frames have none at all. */
  async #countNoMore(lost: Extract<LookOutcome, { kind: 'looked' }>['lost']): Promise<void> {
    const place = this.#place;
    const records = lost.map(({ arrival, why }) => ({ type: 'copy-lost', arrival, place, why }) as const);
    try {
      await this.#options.keep.appendTogether(records);
    } catch {
      // The journal refuses while the home's disk is full or failing: the next look finds the same.
      return;
    }
    this.#lost += lost.length;
    this.#waiting.addBehind(lost.map(({ arrival }) => arrival));
    if (lost.length > 0) this.#journalIsBehind = true;
  }

  async #isReady(): Promise<boolean> {
    if (!this.#troubles.has('place') && this.#lies !== null) return true;
    const { copier } = this.#options;
    const check = await this.#heard(0, copier.check(this.#place, false));
    if (check.kind === 'ready') return this.#go(check.lies);
    if (check.trouble === 'foreign' && this.#options.keep.places().has(check.why)) {
      return this.#becomes(check.why, false);
    }
    const isUsed = this.#options.keep.hasCopies(this.#place);
    return check.trouble === 'away' && !isUsed ? this.#becomes(this.#place, true) : this.#stop(check);
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
      return this.#stop({ kind: 'place', trouble: 'failed', why: errorMessage(thrown) });
    }
    this.#place = place;
    this.#listWaiting();
    const check = await this.#heard(0, copier.check(place, isNew));
    return check.kind === 'ready' ? this.#go(check.lies) : this.#stop(check);
  }

  #listWaiting(): void {
    this.#waiting.list(this.#options.keep.keptWithoutCopy(this.#place));
  }

  /** Waits for an answer, and says so where it takes longer than `bytes` can explain. */
  async #heard<Answer>(bytes: number, answer: Promise<Answer>): Promise<Answer> {
    const patienceMs = silentAfterMs + (bytes / slowestBytesPerSecond) * 1000;
    const timer = setTimeout(
      () => this.#troubles.found('silence', { code: 'copy.silent', args: { folder: this.#options.folder } }),
      patienceMs,
    );
    timer.unref();
    try {
      return await answer;
    } finally {
      clearTimeout(timer);
      this.#troubles.over('silence');
    }
  }

  async #copyNext(arrival: string): Promise<Worked> {
    const { keep, copier, folder } = this.#options;
    const place = this.#place;
    const file = keep.keptFile(arrival);
    if (file === null) {
      this.#waiting.done(arrival);
      return 'more';
    }
    const outcome = await this.#heard(file.sizeBytes, copier.copy(place, file));
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
    const outcome = await this.#heard(0, this.#options.copier.copyJournal(this.#place));
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
    else this.#stop(trouble);
    return 'refused';
  }

  /** The place is not there. Anything may become of what lies in it meanwhile. */
  #stop(trouble: PlaceTrouble): false {
    this.#lies = null;
    this.#look.startAgain();
    this.#troubles.found('place', placeFinding(trouble, this.#options.folder));
    return false;
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

/** The place that was last known under a folder. */
function placeAt(keep: PlaceKeep, folder: string): string | null {
  for (const [place, known] of keep.places()) if (known === folder) return place;
  return null;
}
