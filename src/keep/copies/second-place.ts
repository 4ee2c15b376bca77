import { errorMessage } from '../../base/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { KeptFile } from '../core/records.ts';
import { CopyLook } from './copy-look.ts';
import type { CopyOutcome, LookOutcome, PlaceTrouble } from './copy-shapes.ts';
import { Nap } from './nap.ts';
import { fileFinding, originalTrouble, placeFinding } from './place-findings.ts';
import type { PlaceKeep, PlaceStatus, SecondPlaceOptions } from './place-options.ts';
import { WaitingCopies } from './waiting-copies.ts';

/** A file that could not be copied is tried again after this; the others go first. */
const retryFileMs = 10 * 60_000;
/** Marks and remarks come in flurries: the journal is copied when it has been quiet for so long. */
const journalQuietMs = 1000;

/** A call that has not come back for so long, and longer for what takes its time at so many bytes a second, hangs. */
const silentAfterMs = 60_000;
const slowestBytesPerSecond = 2e6;

/**
 * Copies everything that is kept to one second place, behind the camera: the newest first, one at a time, and the
 * journal after them. What failed is tried again; a place that was away is caught up with when it is back. Copies that
 * are not there any more, or not in their size, count no longer and are made anew. A place is known by its marker, so that it is the same under another folder; one that was never used is journalled, then marked.
 */
export class SecondPlace {
  readonly #options: SecondPlaceOptions;
  readonly #waiting = new WaitingCopies();
  /** Id of the place, once it is known. */
  #place: string;
  #otherDevice: boolean | null = null;
  #finding: Finding | null = null;
  #journalIsBehind = true;
  readonly #look: CopyLook;
  /** Found lost since the look began. */
  #lost = 0;
  #closed = false;
  readonly #nap = new Nap();
  readonly #timers = new Set<NodeJS.Timeout>();
  readonly #stopHearing: readonly (() => void)[];
  readonly #running: Promise<void>;

  constructor(options: SecondPlaceOptions) {
    this.#options = options;
    this.#look = new CopyLook(options.lookEveryMs);
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
      finding: this.#finding ?? this.#waiting.finding(),
      waiting: this.#waiting.count,
      otherDevice: this.#otherDevice,
    };
  }

  /** Ends after the file that is being copied; what is left is copied after the next start. */
  async close(): Promise<void> {
    this.#closed = true;
    for (const stop of this.#stopHearing) stop();
    for (const timer of this.#timers) clearTimeout(timer);
    this.#nap.wake();
    await this.#options.copier.close();
    await this.#running;
  }

  async #run(): Promise<void> {
    while (!this.#closed) {
      if (!(await this.#isReady())) await this.#nap.sleep(this.#options.retryMs);
      else if (!(await this.#workOn())) await this.#nap.sleep(this.#look.dueInMs());
    }
  }

  /** A part of the look where one is due, and the next copy; with neither, the journal. False where all is done. */
  async #workOn(): Promise<boolean> {
    const hasLooked = await this.#lookOn();
    if (this.#otherDevice === null) return true;
    if (this.#waiting.newest() !== null) await this.#copyNewest();
    else if (this.#journalIsBehind && !hasLooked) await this.#copyJournal();
    else return hasLooked;
    return true;
  }

  /** False where no look is due. */
  async #lookOn(): Promise<boolean> {
    const { keep, copier } = this.#options;
    const place = this.#place;
    const copies = this.#look.next(() => keep.copiesIn(place));
    if (copies === null) return false;
    const beganMs = performance.now();
    const outcome = await this.#heard(0, copier.look(place, copies));
    if (outcome.kind === 'place') {
      if (!this.#closed) this.#stop(outcome);
      return true;
    }
    this.#look.done(performance.now() - beganMs);
    if (outcome.journalIsBehind) this.#journalIsBehind = true;
    await this.#countNoMore(outcome.lost);
    if (this.#look.dueInMs() > 0 && this.#lost > 0) {
      this.#options.say({ code: 'copy.lost', args: { folder: this.#options.folder, count: this.#lost } });
      this.#lost = 0;
    }
    return true;
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
    if (this.#finding === null && this.#otherDevice !== null) return true;
    const { copier } = this.#options;
    const check = await this.#heard(0, copier.check(this.#place, false));
    if (check.kind === 'ready') return this.#go(check.otherDevice);
    if (check.trouble === 'foreign' && this.#options.keep.places().has(check.why)) {
      return this.#becomes(check.why, false);
    }
    const isUsed = this.#options.keep.hasCopies(this.#place);
    return check.trouble === 'away' && !isUsed ? this.#becomes(this.#place, true) : this.#stop(check);
  }

  #go(otherDevice: boolean): true {
    const isNews = this.#otherDevice !== otherDevice;
    this.#otherDevice = otherDevice;
    this.#say(null);
    // No reason not to copy, so no trouble of the place: but whoever reads the terminal should not feel safe.
    if (isNews && !otherDevice) {
      this.#options.say({ code: 'copy.same-device', args: { folder: this.#options.folder } });
    }
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
    return check.kind === 'ready' ? this.#go(check.otherDevice) : this.#stop(check);
  }

  #listWaiting(): void {
    this.#waiting.list(this.#options.keep.keptWithoutCopy(this.#place));
  }

  /** Waits for an answer, and says so where it takes longer than `bytes` can explain. */
  async #heard<Answer>(bytes: number, answer: Promise<Answer>): Promise<Answer> {
    const patienceMs = silentAfterMs + (bytes / slowestBytesPerSecond) * 1000;
    const timer = setTimeout(
      () => this.#say({ code: 'copy.silent', args: { folder: this.#options.folder } }),
      patienceMs,
    );
    timer.unref();
    try {
      return await answer;
    } finally {
      clearTimeout(timer);
      if (this.#finding?.code === 'copy.silent') this.#say(null);
    }
  }

  async #copyNewest(): Promise<void> {
    const { keep, copier } = this.#options;
    const place = this.#place;
    const arrival = this.#waiting.newest();
    if (arrival === null) return;
    const file = keep.keptFile(arrival);
    if (file === null) {
      this.#waiting.done(arrival);
      return;
    }
    const outcome = await this.#heard(file.sizeBytes, copier.copy(place, file));
    if (this.#closed && outcome.kind === 'place') return;
    if (outcome.kind === 'place') {
      this.#stop(outcome);
      return;
    }
    this.#noteOriginal(file, outcome);
    if (outcome.kind === 'copied') {
      const { readBack, otherDevice } = outcome;
      // The journal refuses while the home's disk is full or failing: the copy is found there at the next try.
      await keep
        .append({ type: 'copied', arrival: file.arrival, place, readBack, otherDevice })
        .catch(() => this.#later(file));
    } else {
      this.#options.say(fileFinding(outcome.kind, file, this.#options.folder));
      this.#later(file);
    }
    this.#waiting.done(file.arrival);
    this.#journalIsBehind = true;
  }

  #noteOriginal(file: KeptFile, outcome: CopyOutcome): void {
    const trouble = originalTrouble(outcome.kind);
    this.#waiting.found(file, trouble);
    // A copy that lay there already says nothing of the original.
    if (trouble !== null || (outcome.kind === 'copied' && outcome.originalRead))
      this.#options.original(file, trouble);
  }

  async #copyJournal(): Promise<void> {
    this.#journalIsBehind = false;
    const outcome = await this.#heard(0, this.#options.copier.copyJournal(this.#place));
    if (outcome.kind === 'copied') return;
    this.#journalIsBehind = true;
    if (outcome.kind === 'place') this.#stop(outcome);
    else this.#say({ code: 'copy.journal-differs', args: { folder: this.#options.folder } });
  }

  /** Nothing can be copied now. */
  #stop(trouble: PlaceTrouble): false {
    this.#otherDevice = null;
    // Anything may become of what lies in a place while it is away. One that is full is still there.
    if (trouble.trouble !== 'full') this.#look.startAgain();
    this.#say(placeFinding(trouble, this.#options.folder));
    return false;
  }

  #say(finding: Finding | null): void {
    const before = JSON.stringify(this.#finding);
    this.#finding = finding;
    if (finding !== null && JSON.stringify(finding) !== before) this.#options.say(finding);
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
