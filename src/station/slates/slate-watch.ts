import { type EpochMs, errorCode } from '../../base/index.ts';
import type { FrameEvent } from '../../contract/index.ts';
import { isRehearsalPicture } from '../../facts/index.ts';
import {
  type Choice,
  type FrameChoice,
  type FrameInOrder,
  inverseOfFrameChoices,
  inverseOfJobChoices,
  isFrameChoice,
  isJobChoice,
  planLate,
  type ShotWord,
} from '../../job/index.ts';
import type { FrameRow } from '../../register/index.ts';
import { type ClockSlate, isGreyCard, meantSlate, measureClock, type ShotSlate } from '../../slate/index.ts';
import type { LookAnswer, SightPool } from '../../workers/index.ts';
import { arrivalOf } from '../cameras/camera-clocks.ts';
import { chosenOf } from '../chosen-of.ts';
import type { FrameBook } from '../frame-book.ts';
import type { ActBook } from '../jobs/act-book.ts';
import type { JobBook } from '../jobs/job-book.ts';
import type { InTurn } from '../turn.ts';
import type { ClockReadings } from './clock-readings.ts';
import { asTest, type Heeded, heedGreyCard, heedRehearsal, heedShot } from './shot-slate.ts';

export interface SlateWatchOptions {
  readonly pool: SightPool;
  readonly book: FrameBook;
  readonly jobs: JobBook;
  readonly acts: ActBook;
  readonly clockReadings: ClockReadings;
  readonly inTurn: InTurn;
  /** Tells the pages of a frame that changed. */
  readonly changed: (frame: string, change: FrameEvent['change']) => Promise<void>;
  readonly now: () => EpochMs;
  readonly trouble: (thrown: unknown) => void;
}

/** Tells the pages what changed beside frames. */
export interface SlateTellers {
  readonly job: (code: string) => Promise<void>;
  readonly station: () => Promise<void>;
}

/** A view of this long edge shows a code as well as a rendering does, pixels; a smaller one waits for it. */
export const viewEdgeMinPx = 1000;
/** A neighbour in the order of the shutter that shows the same grey card was taken within this. */
const sameCardMs = 600_000;

/**
 * Looks at each frame's picture once, at the first view that is large enough or at its rendering, for what was held into it, and
 * carries out what that says. Frames may be looked at in any order: what a slate changes counts from its place in the order
 * of the shutter.
 */
export class SlateWatch {
  readonly #options: SlateWatchOptions;
  readonly #looking = new Set<string>();
  #tellers: SlateTellers | null = null;
  readonly #under = new Set<Promise<void>>();
  #closed = false;

  constructor(options: SlateWatchOptions) {
    this.#options = options;
  }

  /** Who is told; given once the pages' door is there. */
  tellBy(tellers: SlateTellers): void {
    this.#tellers = tellers;
  }

  /** A view of a frame that was cut out of the file on its way in. Returns at once. */
  view(
    frame: string,
    view: { readonly jpeg: Uint8Array; readonly complete: boolean; readonly longEdgePx: number },
  ): void {
    if (view.complete && view.longEdgePx >= viewEdgeMinPx) this.#look(frame, { bytes: view.jpeg }, false);
  }

  /** The last picture there will be of a frame. Returns at once. */
  picture(frame: string, picture: { readonly path: string } | { readonly bytes: Uint8Array }): void {
    this.#look(frame, picture, true);
  }

  /** A frame's shutter time became known, so perhaps it lies in front of a slate that was heeded already. */
  timed(frame: string): void {
    this.#run(() => this.#options.inTurn(() => this.#placeLate(frame)));
  }

  /** Begins nothing more; settles when what is under way has ended. */
  async close(): Promise<void> {
    this.#closed = true;
    await Promise.all(this.#under);
  }

  #look(
    frame: string,
    picture: { readonly path: string } | { readonly bytes: Uint8Array },
    last: boolean,
  ): void {
    if (this.#looking.has(frame)) return;
    this.#looking.add(frame);
    this.#run(async () => {
      try {
        await this.#lookAt(frame, picture, last);
      } finally {
        this.#looking.delete(frame);
      }
    });
  }

  async #lookAt(
    frame: string,
    picture: { readonly path: string } | { readonly bytes: Uint8Array },
    last: boolean,
  ): Promise<void> {
    const { book, jobs, pool, inTurn } = this.#options;
    const row = await book.row(frame);
    if (row === null || row.seen !== null) return;
    // A card that was heeded once is said to be one, though the job may not ask for cards any more.
    const small = row.slate !== null || (jobs.job(row.job)?.greyCard ?? false);
    const answer = await pool.look({ picture, small }).catch((thrown: unknown) => {
      // A picture that nobody can decode shows nothing; whoever asked for it has been told elsewhere.
      if (errorCode(thrown) === 'picture-cannot-decode') return null;
      throw thrown;
    });
    if (answer === null && !last) return;
    await inTurn(() => this.#heed(frame, answer, last));
  }

  async #heed(id: string, answer: LookAnswer | null, last: boolean): Promise<void> {
    const { book } = this.#options;
    const row = await book.row(id);
    if (row === null || row.seen !== null) return;
    const meant = answer === null ? ({ kind: 'none' } as const) : meantSlate(answer.codes, answer);
    // A clock is worth nothing before the camera's time is known.
    const early = meant.kind === 'one' && meant.slate.kind === 'clock' && row.capture?.shutter === undefined;
    if (early && !last) return;
    const greyCard = answer?.small !== null && answer?.small !== undefined && isGreyCard(answer.small);
    const heeded = await this.#meaning(row, meant, greyCard);
    if (heeded !== null && row.slate === null) await this.#choose(row, heeded);
    await book.note(id, { seen: { finding: heeded?.finding ?? null, greyCard } });
    if (heeded !== null) await this.#options.changed(id, 'slate');
  }

  async #meaning(
    row: FrameRow,
    meant: ReturnType<typeof meantSlate>,
    greyCard: boolean,
  ): Promise<Heeded | null> {
    if (isRehearsalPicture(row.name)) return heedRehearsal(this.#inOrder(row));
    if (meant.kind === 'several')
      return { finding: { code: 'slate.several', args: { count: meant.count } }, choices: [] };
    if (meant.kind === 'one') {
      return meant.slate.kind === 'clock' ? this.#clock(row, meant.slate) : this.#shot(row, meant.slate);
    }
    if (!greyCard) return null;
    return heedGreyCard(await this.#around(row), await this.#isSameCard(row));
  }

  async #shot(row: FrameRow, slate: ShotSlate): Promise<Heeded> {
    return heedShot(slate, await this.#around(row));
  }

  async #clock(row: FrameRow, slate: ClockSlate): Promise<Heeded> {
    const { clockReadings, now } = this.#options;
    const { id, camera } = row;
    const choices = asTest(this.#inOrder(row));
    const reading = measureClock(slate, row.capture ?? {});
    if (reading === null) return { finding: { code: 'slate.clock-without-time', args: { camera } }, choices };
    clockReadings.set(camera, { ...reading, frame: id, atMs: now() });
    await this.#tellers?.station();
    const args = { camera, aheadMs: -reading.offsetMs, plusMinusMs: reading.plusMinusMs };
    return { finding: { code: 'slate.clock', args }, choices };
  }

  async #around(row: FrameRow): Promise<Parameters<typeof heedShot>[1]> {
    const { book, jobs, now } = this.#options;
    const later: FrameInOrder[] = [];
    const behind = { orderMs: row.orderMs, id: row.id };
    for await (const each of book.everyRow({ job: row.job, behind })) later.push(this.#inOrder(each));
    const words = await this.#words(row.job);
    return { jobs: jobs.jobs(), frame: this.#inOrder(row), words, later, nowMs: now() };
  }

  async #words(job: string): Promise<readonly ShotWord[]> {
    return [...(await this.#options.book.slates(job)), ...this.#options.jobs.wordsOf(job)];
  }

  /** People hold a card for more than one frame: the frame before or behind it of this camera shows it too. */
  async #isSameCard({ id, job, camera, orderMs }: FrameRow): Promise<boolean> {
    const behind = { orderMs: orderMs - sameCardMs, id: '' };
    let before: FrameRow | null = null;
    let passed = false;
    for await (const row of this.#options.book.everyRow({ job, camera, behind })) {
      if (row.id === id) {
        passed = true;
        continue;
      }
      if (passed) return (before?.seen?.greyCard ?? false) || (row.seen?.greyCard ?? false);
      before = row;
    }
    return before?.seen?.greyCard ?? false;
  }

  async #placeLate(id: string): Promise<void> {
    const { book, jobs } = this.#options;
    const row = await book.row(id);
    const job = row === null ? null : jobs.job(row.job);
    if (row === null || job === null) return;
    const words = await this.#words(row.job);
    if (words.length === 0) return;
    const choices = planLate(job, this.#inOrder(row), words);
    if (choices.length === 0) return;
    await jobs.choose(choices, null);
    await this.#options.changed(id, 'moved');
  }

  /** Journals it, notes the act, tells the pages. */
  async #choose(row: FrameRow, { finding, choices }: Heeded): Promise<void> {
    const { jobs, acts, book, changed } = this.#options;
    if (choices.length === 0) return;
    const inverse: Choice[] = inverseOfJobChoices(jobs.jobs(), choices.filter(isJobChoice));
    const byFrame = new Map<string, FrameChoice[]>();
    for (const choice of choices) {
      if (isFrameChoice(choice)) byFrame.set(choice.frame, [...(byFrame.get(choice.frame) ?? []), choice]);
    }
    for (const [id, own] of byFrame) {
      const each = id === row.id ? row : await book.row(id);
      if (each !== null) inverse.push(...inverseOfFrameChoices(chosenOf(each), own));
    }
    await jobs.choose(choices, null);
    // What only says that something was seen is nothing to take back, and that a rehearsal came through is no act of anybody: where its
    // picture is one after all, its card says so.
    if (choices.some(({ type }) => type !== 'slate-heeded') && !isRehearsalPicture(row.name))
      acts.note({ name: row.camera }, { code: finding.code, args: finding.args }, choices, inverse);
    for (const id of byFrame.keys()) if (id !== row.id) await changed(id, 'moved');
    if (choices.some(isJobChoice)) await this.#tellers?.job(row.job);
  }

  #inOrder(row: FrameRow): FrameInOrder {
    const { camera, orderMs } = row;
    return { ...chosenOf(row), camera, orderMs, arrivedMs: arrivalOf(row, this.#options.now()) };
  }

  #run(work: () => Promise<void>): void {
    if (this.#closed) return;
    const done = work()
      .catch((thrown: unknown) => {
        if (!this.#closed) this.#options.trouble(thrown);
      })
      .finally(() => this.#under.delete(done));
    this.#under.add(done);
  }
}
