import { epochMsToRfc3339, errorCode } from '../../base/index.ts';
import type { Verification } from '../../contract/index.ts';
import {
  type FileReadAgain,
  type ReadAgainEnd,
  type Reading,
  type ReadingPace,
  type readEverythingAgain,
  readVerificationNote,
  readVerified,
  type VerificationNote,
  type VerificationRound,
  verificationStamp,
  writeVerificationNote,
  writeVerified,
} from '../../keep/index.ts';
import { allFound, freshRound, noteWithout, withFound } from './found-in-round.ts';
import { msToGo } from './to-go.ts';

export interface VerifyingOptions {
  readonly home: string;
  /** 0: only when somebody asks. */
  readonly everyDays: number;
  readonly memoryCounts: boolean;
  /** Folders of the second places: one that was given up is read no more, and `setside verify` is told so. */
  readonly copies: readonly string[];
  readonly read: typeof readEverythingAgain;
  /** Whether cameras or deliveries are at work, so that what nobody waits for rests. */
  readonly isBusy: () => boolean;
  readonly tell: (verification: Verification) => void;
  readonly trouble: (thrown: unknown) => void;
  readonly now: () => number;
  /** How often it is looked whether something is due or at work. Default: {@link lookEveryMs}. */
  readonly everyMs?: number;
}

const dayMs = 86_400_000;
const lookEveryMs = 2_000;
/** How far it is is noted so often: after a crash that much is read twice. */
const noteEveryMs = 10_000;
const tellEveryMs = 500;
/** By itself it reads a quarter of the time: a disk that is read all day is slow for everybody. */
const slowRestTimes = 3;

/**
 * Reads every original and copy again: by itself when it is due, slowly and behind everything else, or at full pace when somebody
 * asks. Goes on after a restart where it was. What it finds bad is left as `setside verify` leaves it (`verified.json`), at once
 * and once more at the end.
 */
export class Verifying {
  readonly #options: VerifyingOptions;
  #note: VerificationNote;
  #reading: Reading<ReadAgainEnd> | null = null;
  /** Since this process reads: for the time to go. */
  #here = { beganMs: 0, fromBytes: 0 };
  #pace: ReadingPace = { restTimes: slowRestTimes, paused: false };
  #notedMs = 0;
  #toldMs = 0;
  #turn: Promise<void> = Promise.resolve();
  #timer: NodeJS.Timeout | null = null;
  #closed = false;
  /** Of the note that was read last; undefined before the first. */
  #read: string | null | undefined;

  private constructor(options: VerifyingOptions, note: VerificationNote) {
    this.#options = options;
    this.#note = note;
  }

  static async open(options: VerifyingOptions): Promise<Verifying> {
    const { home, now, everyMs = lookEveryMs, trouble } = options;
    const known = await readVerificationNote(home);
    const inUse = options.copies;
    const note = { ...(known ?? { sinceMs: now(), round: null, last: null }), inUse };
    const verifying = new Verifying(options, note);
    if (JSON.stringify(known?.inUse) !== JSON.stringify(inUse)) await verifying.#write();
    verifying.#timer = setInterval(() => void verifying.#look().catch(trouble), everyMs);
    verifying.#timer.unref();
    return verifying;
  }

  state(): Verification {
    const { everyDays } = this.#options;
    const { round, last } = this.#note;
    const dueMs = this.#dueMs();
    return {
      everyDays,
      dueAt: dueMs === null ? null : epochMsToRfc3339(dueMs),
      running: round === null ? null : this.#running(round),
      last:
        last === null
          ? null
          : {
              startedAt: epochMsToRfc3339(last.beganMs),
              endedAt: epochMsToRfc3339(last.endedMs),
              files: last.files,
              bytes: last.bytes,
              badOriginals: last.badOriginals,
              places: last.places.map((place) => ({ ...place })),
            },
    };
  }

  /** `running`: reads all now, at full pace; what goes on slowly goes on so. `stopped`: lets it rest until it is due again. */
  async become(wanted: 'running' | 'stopped'): Promise<Verification> {
    await this.#inTurn(() => (wanted === 'running' ? this.#begin('full') : this.#stop()));
    return this.state();
  }

  /** These originals are as they were received again, since that many of them were found bad by the last reading. */
  async putBack(arrivals: ReadonlySet<string>, ofLast: number): Promise<void> {
    await this.#inTurn(async () => {
      this.#note = noteWithout(this.#note, arrivals, ofLast);
      await this.#write();
    });
    this.#tellNow();
  }

  async close(): Promise<void> {
    this.#closed = true;
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#reading?.stop();
    this.#reading = null;
    await this.#turn.catch(() => {});
    if (this.#note.round !== null) await this.#write();
  }

  #inTurn(work: () => Promise<void>): Promise<void> {
    const done = this.#turn.then(work);
    this.#turn = done.catch(() => {});
    return done;
  }

  async #look(): Promise<void> {
    if (this.#closed) return;
    await this.#heedCommand();
    if (this.#reading !== null) this.#heedWork();
    else
      await this.#inTurn(() =>
        this.#mustRead() ? this.#begin(this.#note.round?.pace ?? 'slow') : Promise.resolve(),
      );
  }

  /** A command beside the station may have read everything meanwhile. */
  async #heedCommand(): Promise<void> {
    const { home, tell } = this.#options;
    const stamp = await verificationStamp(home).catch(() => this.#read);
    if (stamp === this.#read) return;
    this.#read = stamp;
    const last = (await readVerificationNote(home))?.last ?? null;
    if (last === null || last.endedMs <= (this.#note.last?.endedMs ?? 0)) return;
    this.#note = { ...this.#note, last };
    tell(this.state());
  }

  #mustRead(): boolean {
    const dueMs = this.#dueMs();
    const isDue = dueMs !== null && dueMs <= this.#options.now();
    return this.#reading === null && (this.#note.round !== null || isDue);
  }

  #dueMs(): number | null {
    const { everyDays } = this.#options;
    const { sinceMs, last, round } = this.#note;
    if (everyDays === 0 || round !== null) return null;
    return (last?.beganMs ?? sinceMs) + everyDays * dayMs;
  }

  async #begin(pace: VerificationRound['pace']): Promise<void> {
    if (this.#closed) return;
    const { home, memoryCounts, copies, read, now } = this.#options;
    const before = this.#note.round;
    const round: VerificationRound = before ?? freshRound(now());
    this.#note = { ...this.#note, round: { ...round, pace } };
    this.#pace = this.#wantedPace(pace);
    if (this.#reading === null) {
      this.#here = { beganMs: now(), fromBytes: round.doneBytes };
      const options = { home, after: round.after, memoryCounts, inUse: copies };
      const reading = read(options, this.#pace, (file) => {
        if (this.#reading === reading) this.#take(file);
      });
      this.#reading = reading;
      void this.#follow(reading);
    } else this.#reading.pace(this.#pace);
    await this.#write();
    this.#tellNow();
  }

  async #stop(): Promise<void> {
    this.#reading?.stop();
    this.#reading = null;
    if (this.#note.round === null) return;
    // Not due again at once, where it began by itself.
    this.#note = { ...this.#note, round: null, sinceMs: this.#options.now() };
    await this.#write();
    this.#tellNow();
  }

  async #follow(reading: Reading<ReadAgainEnd>): Promise<void> {
    try {
      const end = await reading.done;
      await this.#inTurn(() => (this.#reading === reading ? this.#finish(end) : Promise.resolve()));
    } catch (thrown) {
      if (errorCode(thrown) !== 'reading-stopped') this.#options.trouble(thrown);
      // The next look begins again where it was.
      if (this.#reading === reading) this.#reading = null;
    }
  }

  #take(file: FileReadAgain): void {
    const { round } = this.#note;
    if (round === null) return;
    const { arrival, seq, trouble, badIn, doneFiles, files, doneBytes, allBytes } = file;
    const originals = trouble === null ? round.originals : [...round.originals, { arrival, trouble }];
    const copies = [...round.copies, ...badIn.map((place) => ({ arrival, place }))];
    const far = { after: arrival, seq, doneFiles, files, doneBytes, bytes: allBytes };
    this.#note = { ...this.#note, round: { ...round, ...far, originals, copies } };
    const nowMs = this.#options.now();
    const isBad = trouble !== null || badIn.length > 0;
    if (isBad || nowMs - this.#notedMs > noteEveryMs) this.#noteSoon(isBad);
    if (isBad || nowMs - this.#toldMs > tellEveryMs) this.#tellNow();
  }

  #noteSoon(isBad: boolean): void {
    this.#notedMs = this.#options.now();
    void this.#inTurn(async () => {
      await this.#write();
      if (isBad) await this.#leaveFound();
    }).catch(this.#options.trouble);
  }

  /** What is bad so far, beside what was known: the page is told before all is read. */
  async #leaveFound(): Promise<void> {
    const { home } = this.#options;
    const { round } = this.#note;
    if (round === null) return;
    const known = await readVerified(home);
    await writeVerified(
      home,
      withFound(known ?? { beganMs: round.beganMs, originals: [], places: [] }, round),
    );
  }

  async #finish(end: ReadAgainEnd): Promise<void> {
    const { home, now } = this.#options;
    const { round } = this.#note;
    if (round === null) return;
    const known = await readVerified(home);
    // A command that began later and has read everything says it better.
    if (known === null || known.beganMs <= round.beganMs)
      await writeVerified(home, allFound(known, round, end));
    const places = end.places.map(({ place, folder, files, wasRead }) => {
      return { folder, files, wasRead, bad: round.copies.filter((copy) => copy.place === place).length };
    });
    const { beganMs, originals } = round;
    const { files, bytes } = end;
    const last = { beganMs, endedMs: now(), files, bytes, badOriginals: originals.length, places };
    this.#note = { ...this.#note, round: null, last };
    // Not before: whoever looks meanwhile must not take it for one that has to go on.
    this.#reading = null;
    await this.#write();
    this.#tellNow();
  }

  #heedWork(): void {
    const pace = this.#wantedPace(this.#note.round?.pace ?? 'slow');
    if (pace.paused === this.#pace.paused && pace.restTimes === this.#pace.restTimes) return;
    this.#pace = pace;
    this.#reading?.pace(pace);
    this.#tellNow();
  }

  /** Who asks for it waits for it: then nothing makes it rest. */
  #wantedPace(pace: VerificationRound['pace']): ReadingPace {
    if (pace === 'full') return { restTimes: 0, paused: false };
    return { restTimes: slowRestTimes, paused: this.#options.isBusy() };
  }

  #running(round: VerificationRound): NonNullable<Verification['running']> {
    const { beganMs, files, doneFiles, bytes, doneBytes, pace } = round;
    const { now } = this.#options;
    const { fromBytes } = this.#here;
    const waiting = this.#pace.paused;
    const toGoMs = waiting
      ? null
      : msToGo(doneBytes - fromBytes, bytes - fromBytes, now() - this.#here.beganMs);
    return {
      startedAt: epochMsToRfc3339(beganMs),
      ...{ files, doneFiles, bytes, doneBytes, pace, waiting, toGoMs },
      bad: round.originals.length + round.copies.length,
    };
  }

  #tellNow(): void {
    this.#toldMs = this.#options.now();
    this.#options.tell(this.state());
  }

  async #write(): Promise<void> {
    this.#notedMs = this.#options.now();
    await writeVerificationNote(this.#options.home, this.#note).catch(this.#options.trouble);
  }
}
