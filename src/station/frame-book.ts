import type { Frame } from '../contract/index.ts';
import type { JournalRecord, Keep } from '../keep/index.ts';
import type { FrameFacts, FrameRow, FramesPage, FramesQuery, Register } from '../register/index.ts';
import { frameOfRow } from './frame-shape.ts';
import { LiveArrivals } from './live-arrivals.ts';

/**
 * The frames as they are now: the register, kept in step with the journal, and beside it what is known of files while
 * they arrive.
 */
export class FrameBook {
  readonly live: LiveArrivals = new LiveArrivals();
  readonly #register: Register;
  #applied: Promise<void> = Promise.resolve();

  constructor(register: Register) {
    this.#register = register;
  }

  /** Follows the journal: first what the register has not seen, then every new record. Settles when it has caught up. */
  async follow(keep: Keep): Promise<void> {
    const waiting: JournalRecord[] = [];
    let caughtUp = false;
    keep.onRecord((record) => {
      if (caughtUp) this.#apply(record);
      else waiting.push(record);
    });
    for await (const record of keep.records(await this.#register.appliedSeq()))
      await this.#register.apply(record);
    for (const record of waiting) this.#apply(record);
    caughtUp = true;
    await this.#applied;
  }

  /** The frame, once every record so far is in the register; null where there is none to show. */
  async frame(id: string): Promise<Frame | null> {
    const row = await this.row(id);
    return row === null ? null : frameOfRow(row, (arrival) => this.live.get(arrival));
  }

  async row(id: string): Promise<FrameRow | null> {
    await this.#applied;
    return this.#register.frame(id);
  }

  async page(query: FramesQuery): Promise<{ frames: Frame[]; next: string | null }> {
    const { frames, next } = await this.rows(query);
    const shown = frames.map((row) => frameOfRow(row, (arrival) => this.live.get(arrival)));
    return { frames: shown.filter((frame) => frame !== null), next };
  }

  async rows(query: FramesQuery): Promise<FramesPage> {
    await this.#applied;
    return this.#register.framesPage(query);
  }

  /** Every row there is, page by page. */
  async *everyRow(): AsyncGenerator<FrameRow> {
    let after: string | null = null;
    do {
      const page: FramesPage = await this.rows({ limit: 500, ...(after === null ? {} : { after }) });
      yield* page.frames;
      after = page.next;
    } while (after !== null);
  }

  async note(frame: string, facts: Partial<FrameFacts>): Promise<void> {
    await this.#applied;
    await this.#register.upsertFacts(frame, facts);
  }

  #apply(record: JournalRecord): void {
    this.#applied = this.#register.apply(record);
    // Whoever needs the record waits for the promise and meets the failure; unheard it must not end the process.
    this.#applied.catch(() => {});
  }
}
