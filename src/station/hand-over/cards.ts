import { epochMsToRfc3339, errorCode, errorMessage, SetsideError } from '../../base/index.ts';
import {
  type CardCheck,
  type CardDesk,
  cardFilesNamedMax,
  type NewCardOutcome,
} from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  type CardChecked,
  type CardReport,
  cardMark,
  type Keep,
  type Reading,
  type readCard,
} from '../../keep/index.ts';
import { type CameraFolder, type FilesTaken, type Prove, takeFiles } from '../../receive/index.ts';
import { allowedCard, type CardFolderSources, cardFolders } from './card-folders.ts';
import { cardOutcome } from './card-outcome.ts';
import {
  beginningCheck,
  beginningTakingIn,
  checkDone,
  checkUnderWay,
  overtaken,
  plain,
} from './card-state.ts';
import { checkTold, outcomeTold } from './card-told.ts';
import { msToGo } from './to-go.ts';

export interface CardsOptions extends CardFolderSources {
  readonly memoryCounts: boolean;
  readonly keep: Pick<Keep, 'append'>;
  readonly read: typeof readCard;
  /** A camera that may come in; null where there is none of that name, or it was ended. */
  readonly folderOf: (camera: string) => CameraFolder | null;
  readonly prove: Prove;
  readonly report: (camera: string, folder: string, finding: Finding) => void;
  readonly tell: (check: CardCheck) => void;
  readonly trouble: (thrown: unknown) => void;
  readonly newId: () => string;
  readonly now: () => number;
}

/**
 * The card check of a running station: one card at a time, read in a process of its own. The last one is remembered until the
 * station ends; its outcome is in the journal. Nothing is ever written to a card, nor deleted from it.
 */
export class Cards {
  readonly #options: CardsOptions;
  #check: CardCheck | null = null;
  #reading: Reading<CardReport> | null = null;
  #taking: AbortController | null = null;
  /** Paths that the last check found missing, with their sizes: more than are told. */
  #missing: readonly { readonly path: string; readonly sizeBytes: number }[] = [];
  /** By what the card that was checked is known again; null where nothing is said of one. */
  #mark: string | null = null;
  #working: Promise<void> = Promise.resolve();

  constructor(options: CardsOptions) {
    this.#options = options;
  }

  /** Looks whether the card that was checked is still the one that is in: what was proved of one says nothing of the next. */
  async desk(): Promise<CardDesk> {
    const [check, mark] = [this.#check, this.#mark];
    if (check?.state === 'done' && mark !== null) {
      const now = await cardMark(check.folder);
      if (now !== mark && this.#mark === mark) this.#overtake(now === null);
    }
    return { folders: await cardFolders(this.#options), check: this.#check };
  }

  /** Rejects `card-not-allowed`, `no-card`, `card-busy`. */
  async begin(wanted: string): Promise<CardCheck> {
    this.#assertIdle();
    const { home, memoryCounts, read, newId, now } = this.#options;
    const folder = await allowedCard(this.#options, wanted);
    const mark = await cardMark(folder);
    this.#assertIdle();
    const check = this.#become(beginningCheck(newId(), folder, now()));
    this.#missing = [];
    this.#mark = null;
    const reading = read({ home, folder, memoryCounts }, (far) => {
      if (this.#reading === reading) this.#become(checkUnderWay(this.#now(), far, now()));
    });
    this.#reading = reading;
    this.#working = this.#follow(reading, mark);
    return check;
  }

  /**
   * What the command found, read just now from the same disks: into the journal, so that the strike check knows, and onto the page
   * unless another card is at work there.
   */
  async told(outcome: NewCardOutcome): Promise<CardCheck> {
    const journalled = await this.#journal(outcomeTold(outcome));
    const check = { ...checkTold(outcome, this.#options.newId()), journalled };
    if (this.#reading !== null || this.#taking !== null) return check;
    this.#missing = [];
    this.#mark = outcome.mark;
    this.#become(check);
    if (outcome.mark === null) this.#overtake(false);
    return (await this.desk()).check ?? check;
  }

  /** Null where no card was ever checked. */
  async stop(): Promise<CardCheck | null> {
    this.#taking?.abort('stopping');
    this.#reading?.stop();
    await this.#working;
    return this.#check;
  }

  /** Rejects `no-card-check`, `card-busy`, `no-camera`, `no-card`. */
  async takeIn(camera: string): Promise<CardCheck> {
    this.#assertIdle();
    const check = this.#check;
    if (check?.state !== 'done' || this.#missing.length === 0)
      throw new SetsideError('no-card-check', 'no check says that something is missing');
    const folder = this.#options.folderOf(camera);
    if (folder === null) throw new SetsideError('no-camera', `there is no camera ${camera} that may come in`);
    // The card may be another by now: what is taken in is judged by its bytes, so that at worst too much is kept.
    await allowedCard(this.#options, check.folder);
    this.#assertIdle();
    const taking = new AbortController();
    this.#taking = taking;
    const begun = this.#become({ ...check, takingIn: beginningTakingIn(camera, this.#missing) });
    this.#working = this.#takeFiles(camera, folder, taking.signal);
    return begun;
  }

  async close(): Promise<void> {
    await this.stop();
  }

  #assertIdle(): void {
    if (this.#reading !== null || this.#taking !== null)
      throw new SetsideError('card-busy', 'a card is being checked or taken in');
  }

  /** `mark`: of the card as it was before it was read. */
  async #follow(reading: Reading<CardReport>, mark: string | null): Promise<void> {
    const { now } = this.#options;
    try {
      const report = await reading.done;
      this.#missing = report.files.filter(({ state }) => state === 'missing');
      const done = checkDone(this.#now(), report, now());
      // Told once it is in the journal: who hears it may ask the strike check at once.
      const journalled = await this.#journal(cardOutcome(report));
      const markNow = await cardMark(report.folder);
      this.#reading = null;
      this.#mark = mark;
      this.#become({ ...done, journalled });
      if (mark === null || markNow !== mark) this.#overtake(markNow === null);
    } catch (thrown) {
      this.#reading = null;
      const endedAt = epochMsToRfc3339(now());
      const isStopped = errorCode(thrown) === 'reading-stopped';
      const finding = {
        code: 'card.failed',
        args: { folder: this.#now().folder, why: errorMessage(thrown) },
      };
      const state = isStopped ? 'stopped' : 'failed';
      this.#become({ ...this.#now(), state, endedAt, toGoMs: null, findings: isStopped ? [] : [finding] });
    }
  }

  #journal(outcome: CardChecked): Promise<boolean> {
    const { keep, trouble } = this.#options;
    return keep.append(outcome).then(
      () => true,
      (thrown: unknown) => {
        trouble(thrown);
        return false;
      },
    );
  }

  async #takeFiles(camera: string, folder: CameraFolder, signal: AbortSignal): Promise<void> {
    const { prove, report, now, trouble } = this.#options;
    const root = this.#now().folder;
    const sizes = new Map(this.#missing.map(({ path, sizeBytes }) => [path, sizeBytes]));
    const beganMs = now();
    const onFile = (path: string, isTaken: boolean): void => {
      const check = this.#now();
      const before = check.takingIn;
      if (before === null) return;
      const takenBytes = before.takenBytes + (sizes.get(path) ?? 0);
      const left = isTaken ? before.left : [...before.left, path].slice(0, cardFilesNamedMax);
      const taken = before.taken + (isTaken ? 1 : 0);
      const toGoMs = msToGo(takenBytes, before.bytes, now() - beganMs);
      this.#become({ ...check, takingIn: { ...before, taken, takenBytes, left, toGoMs } });
    };
    const wish = { root, paths: [...sizes.keys()], folder, prove, signal, onFile };
    const ended = await takeFiles({
      ...wish,
      report: (finding) => report(camera, root, finding),
    }).catch((thrown: unknown): FilesTaken => {
      trouble(thrown);
      return 'stopped';
    });
    this.#taking = null;
    const check = this.#now();
    const state = ended === 'away' ? 'card-gone' : ended;
    if (check.takingIn !== null)
      this.#become({ ...check, takingIn: { ...check.takingIn, state, toGoMs: null } });
  }

  #overtake(isAway: boolean): void {
    this.#mark = null;
    this.#become(overtaken(this.#now(), isAway));
  }

  #now(): CardCheck {
    if (this.#check === null) throw new Error('asked for a check before one was begun');
    return this.#check;
  }

  #become(check: CardCheck): CardCheck {
    const told = { ...check, findings: check.findings.map(plain) };
    this.#check = told;
    this.#options.tell(told);
    return told;
  }
}
