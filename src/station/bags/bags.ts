import { SetsideError } from '../../base/index.ts';
import type { BagDesk, BagWork } from '../../contract/index.ts';
import { allowedBag, type BagFolderSources, bagPlaces, bagsThere, isBegun } from './bag-folders.ts';
import type { BagNews, BagTask } from './bag-messages.ts';
import { readBagNote, writeBagNote } from './bag-note.ts';
import { beginningWork, ended, taskOf, workDone, workFailed, workUnderWay } from './bag-work.ts';
import type { BagAtWork, startBag } from './start-bag.ts';

export interface BagsOptions extends BagFolderSources {
  readonly hasJob: (code: string) => boolean;
  readonly start: typeof startBag;
  /** Whether cameras or deliveries are at work, so that a bag rests. */
  readonly isBusy: () => boolean;
  readonly tell: (work: BagWork) => void;
  readonly trouble: (thrown: unknown) => void;
  readonly newId: () => string;
  readonly now: () => number;
  /** How often it is looked whether others are at work. Default: {@link lookEveryMs}. */
  readonly everyMs?: number;
}

const lookEveryMs = 2_000;

/**
 * Archive packages of a running station: one at a time, made or read in a process of its own by what the command uses, behind
 * everything else. One that was under way when the station ended goes on with the next.
 */
export class Bags {
  readonly #options: BagsOptions;
  #work: BagWork | null = null;
  #hands: BagAtWork | null = null;
  #paused = false;
  /** When the phase began, moved on by each rest. */
  #phaseMs = 0;
  #restedMs = 0;
  #writing: Promise<void> = Promise.resolve();
  #timer: NodeJS.Timeout | null = null;

  private constructor(options: BagsOptions) {
    this.#options = options;
  }

  static async open(options: BagsOptions): Promise<Bags> {
    const bags = new Bags(options);
    const known = await readBagNote(options.home);
    bags.#work = known;
    if (known?.state === 'running') await bags.#goOn(known);
    return bags;
  }

  async desk(): Promise<BagDesk> {
    const places = await bagPlaces(this.#options);
    return { places, bags: await bagsThere(places), work: this.#work };
  }

  /** Rejects `bag-not-allowed`, `no-job`, `bag-busy`. */
  async make(job: string, wanted: string): Promise<BagWork> {
    if (!this.#options.hasJob(job)) throw new SetsideError('no-job', `there is no job ${job}`);
    return this.#begin({ kind: 'make', job, folder: await allowedBag(this.#options, 'make', wanted) });
  }

  /** Rejects `bag-not-allowed`, `bag-busy`. */
  async check(wanted: string): Promise<BagWork> {
    return this.#begin({ kind: 'check', folder: await allowedBag(this.#options, 'check', wanted) });
  }

  /** What was written stays. Null where there never was a bag. */
  async stop(): Promise<BagWork | null> {
    this.#letGo();
    const work = this.#work;
    return work?.state === 'running' ? this.#settle(ended(work, 'stopped', this.#options.now())) : work;
  }

  /** What is under way goes on when the station starts again. */
  async close(): Promise<void> {
    this.#letGo();
    await this.#writing;
  }

  async #begin(task: BagTask): Promise<BagWork> {
    const { newId, now } = this.#options;
    if (this.#work?.state === 'running') throw new SetsideError('bag-busy', 'a bag is being made or checked');
    const work = this.#become(beginningWork(newId(), task, now()));
    // Before anything is written there: after a crash it is known what goes on.
    await this.#note(work);
    if (this.#work === work) this.#start(work);
    return work;
  }

  async #goOn(work: BagWork): Promise<void> {
    const { folder } = work;
    // Of one that rested before anything was written there is nothing to be seen: it is allowed as it was when it was asked for.
    const mayGoOn =
      work.phase === 'beginning'
        ? await allowedBag(this.#options, work.kind, folder).then(
            () => true,
            () => false,
          )
        : await isBegun(folder);
    if (mayGoOn) this.#start(this.#become(work));
    else {
      const failure = { code: 'bag.away', args: { folder } };
      await this.#settle(workFailed(work, failure, this.#options.now()));
    }
  }

  #start(work: BagWork): void {
    const { home, start, isBusy } = this.#options;
    this.#paused = isBusy();
    this.#phaseMs = this.#options.now();
    this.#restedMs = this.#phaseMs;
    const hands = start(home, taskOf(work), this.#paused, (news) => {
      if (this.#hands === hands) this.#hear(news);
    });
    this.#hands = hands;
    // Only while there is a bag: a station with nothing to do has nothing to look for.
    this.#timer = setInterval(() => this.#heedOthers(), this.#options.everyMs ?? lookEveryMs);
    this.#timer.unref();
    if (this.#paused) this.#become({ ...work, waiting: true });
  }

  #hear(news: BagNews): void {
    const { now } = this.#options;
    const work = this.#work;
    if (work === null) return;
    if (news.kind === 'progress') {
      const isNewPhase = news.progress.phase !== work.phase;
      if (isNewPhase) this.#phaseMs = now();
      const far = workUnderWay(work, news.progress, now() - this.#phaseMs);
      if (isNewPhase) void this.#note(far);
      this.#become(this.#paused ? { ...far, toGoMs: null } : far);
      return;
    }
    this.#layDown();
    const over =
      news.kind === 'done'
        ? workDone(work, news.end, now())
        : workFailed(
            work,
            { code: 'bag.failed', args: { folder: work.folder, why: news.why, cure: news.cure } },
            now(),
          );
    void this.#settle(over);
  }

  #heedOthers(): void {
    const { isBusy, now } = this.#options;
    const work = this.#work;
    const isPaused = isBusy();
    if (this.#hands === null || work === null || isPaused === this.#paused) return;
    if (isPaused) this.#restedMs = now();
    else this.#phaseMs += now() - this.#restedMs;
    this.#paused = isPaused;
    this.#hands.pace(isPaused);
    this.#become({ ...work, waiting: isPaused, toGoMs: null });
  }

  #letGo(): void {
    this.#hands?.stop();
    this.#layDown();
  }

  #layDown(): void {
    this.#hands = null;
    if (this.#timer !== null) clearInterval(this.#timer);
    this.#timer = null;
  }

  async #settle(work: BagWork): Promise<BagWork> {
    this.#become(work);
    await this.#note(work);
    return work;
  }

  #note(work: BagWork): Promise<void> {
    const { home, trouble } = this.#options;
    this.#writing = this.#writing.then(() => writeBagNote(home, work)).catch(trouble);
    return this.#writing;
  }

  #become(work: BagWork): BagWork {
    this.#work = work;
    this.#options.tell(work);
    return work;
  }
}
