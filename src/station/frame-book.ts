import type { Frame } from '../contract/index.ts';
import type { ShotWord } from '../job/index.ts';
import type { JournalRecord, Keep } from '../keep/index.ts';
import {
  type BriefFrame,
  type BriefFramesPage,
  type FrameFacts,
  type FrameRow,
  type FramesPage,
  type FramesQuery,
  pageFramesMax,
  type Register,
} from '../register/index.ts';
import { type FrameSurroundings, frameOfRow } from './frame-shape.ts';
import { LiveArrivals } from './live-arrivals.ts';
import { type CountedFile, counted, type LookedAtFile, lookedAt } from './looked-at-file.ts';
import { bracketAround } from './readings/bracket-around.ts';
import type { FrameLimits } from './readings/frame-limits.ts';
import { ReferenceHolder } from './readings/reference-holder.ts';
import { bumpedSettings } from './readings/settings-guard.ts';
import { rereadNeed, waitsForReference } from './readings/stale.ts';
import { isRenderedOtherwise } from './rendered-otherwise.ts';

/** A register that cannot be written (its disk is full, say) is tried again after this. */
const retryMs = 1000;

/** Where the records come from: what the book needs of `keep`. */
export type JournalSource = Pick<Keep, 'onRecord' | 'records'>;

/**
 * The frames as they are now: the register, kept in step with the journal, and beside it what is known of files while
 * they arrive. Where the register cannot be written, what it knows is shown and it catches up from the journal later.
 */
export class FrameBook {
  readonly live: LiveArrivals = new LiveArrivals();
  /** Asked for each frame that is told. */
  readonly #about: FrameSurroundings;
  readonly #register: Register;
  readonly #keep: JournalSource;
  readonly #references: ReferenceHolder;
  readonly #needs = new Map<string, string>();
  #staleHeard: (row: FrameRow) => void = () => {};
  readonly #renderedFor = new Map<string, string>();
  #otherwiseHeard: (row: FrameRow) => void = () => {};
  /** Settles when every record so far is in the register, or was put off; never rejects. */
  #applied: Promise<void> = Promise.resolve();
  /** The newest record that was told. */
  #heardSeq = 0;
  /** Records go to the register by catching up, not one by one. */
  #behind = true;
  #retry: NodeJS.Timeout | null = null;

  private constructor(register: Register, keep: JournalSource, about: Omit<FrameSurroundings, 'live'>) {
    this.#register = register;
    this.#about = { ...about, live: (arrival) => this.live.get(arrival) };
    this.#keep = keep;
    this.#references = new ReferenceHolder(register);
  }

  /** A book that has caught up with the journal and follows it from here on. Rejects where the register refuses. */
  static async open(
    register: Register,
    keep: JournalSource,
    about: Omit<FrameSurroundings, 'live'>,
  ): Promise<FrameBook> {
    const book = new FrameBook(register, keep, about);
    keep.onRecord((record) => book.#follow(record));
    await book.#catchUp();
    return book;
  }

  /** The frame, once every record so far is in the register; null where there is none to show. */
  async frame(id: string): Promise<Frame | null> {
    const row = await this.row(id);
    return row === null ? null : this.#told(row);
  }

  async row(id: string): Promise<FrameRow | null> {
    await this.#applied;
    return this.#register.frame(id);
  }

  async page(query: FramesQuery): Promise<{ frames: Frame[]; next: string | null }> {
    const { frames, next } = await this.rows(query);
    const shown = await Promise.all(frames.map((row) => this.#told(row)));
    return { frames: shown.filter((frame) => frame !== null), next };
  }

  async rows(query: FramesQuery): Promise<FramesPage> {
    await this.#applied;
    return this.#register.framesPage(query);
  }

  /** The slates in force of a job. */
  async slates(job: string): Promise<readonly ShotWord[]> {
    await this.#applied;
    return this.#register.slates(job);
  }

  /** The frame of a sender in a job that holds an original of this hash, or null. */
  async frameOfOriginal(job: string, camera: string, sha256: string): Promise<string | null> {
    await this.#applied;
    return this.#register.frameOfOriginal(job, camera, sha256);
  }

  /** Every row there is, page by page. */
  async *everyRow(
    of: Pick<FramesQuery, 'job' | 'notJob' | 'camera' | 'mark' | 'behind'> = {},
  ): AsyncGenerator<FrameRow> {
    let after: string | null = null;
    do {
      const page: FramesPage = await this.rows({ ...of, limit: 500, ...(after === null ? {} : { after }) });
      yield* page.frames;
      after = page.next;
    } while (after !== null);
  }

  /** The same briefly, a page at a time: no readings, no facts, nothing that is parsed. */
  async *everyBrief(
    of: Pick<FramesQuery, 'job' | 'notJob' | 'camera'> = {},
  ): AsyncGenerator<readonly BriefFrame[]> {
    let after: string | null = null;
    do {
      await this.#applied;
      const page: BriefFramesPage = await this.#register.briefPage({
        ...of,
        limit: pageFramesMax,
        ...(after === null ? {} : { after }),
      });
      yield page.frames;
      after = page.next;
    } while (after !== null);
  }

  /** Of these frames those that are listed, page by page in the order of the day. */
  async *framesNamed(ids: readonly string[]): AsyncGenerator<Frame> {
    for (const some of pagesOf(ids)) yield* (await this.page({ ids: some, limit: pageFramesMax })).frames;
  }

  /** Their rows. */
  async *rowsNamed(ids: readonly string[]): AsyncGenerator<FrameRow> {
    for (const some of pagesOf(ids)) yield* (await this.rows({ ids: some, limit: pageFramesMax })).frames;
  }

  /** Notes what was found out about a frame. Rejects where the register refuses. */
  async note(frame: string, facts: Partial<FrameFacts>): Promise<void> {
    await this.#applied;
    await this.#register.upsertFacts(frame, facts);
  }

  /** Its files as they are told, and what is known of their originals. */
  filesOf(row: FrameRow): readonly LookedAtFile[] {
    return row.files.flatMap((file) => lookedAt(file, this.#about));
  }

  /** Its files as a check counts them. */
  countedFiles(files: BriefFrame['files']): readonly CountedFile[] {
    return files.flatMap((file) => counted(file, this.#about));
  }

  /** What its readings are held against now. */
  limits(row: FrameRow): FrameLimits {
    return this.#about.limits(row);
  }

  /** Hears of each frame that is told and whose pixels have to be read again first; of each need once in a run. */
  onStale(listener: (row: FrameRow) => void): void {
    this.#staleHeard = listener;
  }

  /** Hears of each frame that is told, or looked over, and was rendered with another look or by another target than counts for it; once for each. */
  onOtherwise(listener: (row: FrameRow) => void): void {
    this.#otherwiseHeard = listener;
  }

  /** Looks over the frames of a job for those that were rendered with another look or by another target than counts for them now. */
  async heedRenderings(job: string): Promise<void> {
    for await (const row of this.everyRow({ job })) this.heedRendering(row);
  }

  /** The same for one frame. */
  heedRendering(row: FrameRow): void {
    const limits = this.#about.limits(row);
    if (!isRenderedOtherwise(row, limits)) {
      this.#renderedFor.delete(row.id);
      return;
    }
    // One that cannot be rendered again is not tried over and over.
    const need = `${limits.look.hash} ${limits.balance?.hash ?? ''}`;
    if (this.#renderedFor.get(row.id) === need) return;
    this.#renderedFor.set(row.id, need);
    this.#otherwiseHeard(row);
  }

  async #told(row: FrameRow): Promise<Frame | null> {
    const held = await this.#held(row);
    const { reference } = this.#about.limits(row);
    const settings = await bumpedSettings(this.#register, held, reference, this.#about.now());
    return frameOfRow(held, this.#about, settings);
  }

  /** The other frames of the bracket that it is in; none where it is in none. */
  async bracketMates(row: FrameRow): Promise<readonly string[]> {
    return (await bracketAround(this.#register, row)).filter((id) => id !== row.id);
  }

  /** The row, held against the frame that its shot has as reference now, and against the target that counts. */
  async #held(row: FrameRow): Promise<FrameRow> {
    const limits = this.#about.limits(row);
    await this.#heedStale(row, limits);
    this.heedRendering(row);
    return this.#references.hold(row, limits);
  }

  async #heedStale(row: FrameRow, limits: FrameLimits): Promise<void> {
    const { readings } = row;
    if (readings === null) return;
    const files = waitsForReference(readings, limits) ? await this.#filesOf(limits.place?.frame ?? '') : [];
    const need = rereadNeed(readings, limits, files);
    // A file that cannot be read is not read over and over.
    if (need === null || this.#needs.get(row.id) === need) return;
    this.#needs.set(row.id, need);
    this.#staleHeard(row);
  }

  /** Hashes of a frame's files that are here. */
  async #filesOf(frame: string): Promise<readonly string[]> {
    const files = (await this.#register.frame(frame))?.files ?? [];
    return files.filter(({ path }) => path !== null).flatMap(({ sha256 }) => sha256 ?? []);
  }

  /** No further try is made. The register itself belongs to whoever opened it. */
  close(): void {
    if (this.#retry !== null) clearTimeout(this.#retry);
    this.#retry = null;
  }

  #follow(record: JournalRecord): void {
    this.#heardSeq = record.seq;
    if (this.#behind) return;
    this.#applied = this.#register.apply(record).catch(() => this.#tryLater());
  }

  /** The journal has everything, so nothing is lost by waiting. */
  #tryLater(): void {
    this.#behind = true;
    this.#retry ??= setTimeout(() => {
      this.#retry = null;
      this.#applied = this.#catchUp().catch(() => this.#tryLater());
    }, retryMs);
  }

  /**
   * Reads on in the journal until everything told is in the register; from then on records are followed one by one. A pass
   * ends where the journal ended when it began, and more may have been told meanwhile.
   */
  async #catchUp(): Promise<void> {
    this.#register.takeUpAgain();
    let applied = await this.#register.appliedSeq();
    do {
      for await (const record of this.#keep.records(applied)) await this.#register.apply(record);
      applied = await this.#register.appliedSeq();
    } while (applied < this.#heardSeq);
    this.#behind = false;
  }
}

function pagesOf(ids: readonly string[]): (readonly string[])[] {
  const pages: (readonly string[])[] = [];
  for (let from = 0; from < ids.length; from += pageFramesMax)
    pages.push(ids.slice(from, from + pageFramesMax));
  return pages;
}
