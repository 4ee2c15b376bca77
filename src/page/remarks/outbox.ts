import { changeLetters, type KeptLetter, type Letter, lettersOn, type Shelf } from './letters.ts';

/** How the station took a letter. `later`: it did not answer, or cannot now. */
export type Outcome =
  | { readonly kind: 'taken' | 'later' }
  | { readonly kind: 'refused'; readonly words: string };

export interface OutboxOptions {
  readonly shelf: Shelf;
  /** Code of the job this page is about; letters of another wait for it. */
  readonly job: string;
  readonly send: (letter: Letter) => Promise<Outcome>;
  /** Called after every change. */
  readonly onChange: () => void;
  /** Waits before it is tried again, ms; the last one for ever. */
  readonly retryMs?: readonly number[];
}

export interface Outgoing extends KeptLetter {
  /** The station has it; it is shown until the frame tells of it. */
  readonly sent: boolean;
}

const usualRetryMs: readonly number[] = [1_000, 2_000, 4_000, 8_000];
/** A sent one is shown for so long, unless the station tells of it before: it may have been taken back since. */
const sentShownMs = 10_000;

/**
 * Keeps what somebody said until the station has it, in the order it was said, one at a time. It counts once however often
 * it is sent: each letter has an id of its own.
 */
export class Outbox {
  readonly #options: OutboxOptions;
  /** What the shelf would not take: it lives as long as the page. */
  #unshelved: KeptLetter[] = [];
  #sent: readonly Letter[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #shown = new Set<ReturnType<typeof setTimeout>>();
  #attempts = 0;
  #isSending = false;
  #isClosed = false;

  constructor(options: OutboxOptions) {
    this.#options = options;
  }

  /** Of this job, the oldest first. */
  letters(): readonly Outgoing[] {
    return [
      ...this.#sent.map((letter) => ({ letter, refusal: null, sent: true })),
      ...this.#waiting().map((kept) => ({ ...kept, sent: false })),
    ];
  }

  put(letter: Letter): void {
    const kept: KeptLetter = { letter, refusal: null };
    if (!changeLetters(this.#options.shelf, (letters) => [...letters, kept])) this.#unshelved.push(kept);
    this.#options.onChange();
    this.nudge();
  }

  /** One that was refused is sent once more. */
  tryAgain(id: string): void {
    this.#change((kept) => (idOf(kept) === id ? { ...kept, refusal: null } : kept));
    this.nudge();
  }

  throwAway(id: string): void {
    this.#change((kept) => (idOf(kept) === id ? null : kept));
  }

  /** What the station tells of by itself is not shown as sent any more. */
  heard(ids: ReadonlySet<string>): void {
    if (!this.#sent.some(({ body }) => ids.has(body.id))) return;
    this.#sent = this.#sent.filter(({ body }) => !ids.has(body.id));
    this.#options.onChange();
  }

  /** Sends what waits now: the station has come back, say. */
  nudge(): void {
    clearTimeout(this.#timer);
    this.#attempts = 0;
    void this.#sendAll();
  }

  close(): void {
    this.#isClosed = true;
    clearTimeout(this.#timer);
    for (const timer of this.#shown) clearTimeout(timer);
  }

  async #sendAll(): Promise<void> {
    if (this.#isSending) return;
    this.#isSending = true;
    try {
      for (;;) {
        const next = this.#waiting().find(({ refusal }) => refusal === null);
        if (next === undefined || this.#isClosed) return;
        const outcome = await this.#options.send(next.letter);
        if (outcome.kind === 'later') {
          this.#sendLater();
          return;
        }
        this.#attempts = 0;
        this.#note(next, outcome);
      }
    } finally {
      this.#isSending = false;
    }
  }

  #note(next: KeptLetter, outcome: Exclude<Outcome, { kind: 'later' }>): void {
    const id = idOf(next);
    if (outcome.kind === 'taken') {
      this.#sent = [...this.#sent, next.letter];
      const shown = setTimeout(() => this.heard(new Set([id])), sentShownMs);
      this.#shown.add(shown);
      this.throwAway(id);
    } else {
      const { words } = outcome as Extract<Outcome, { kind: 'refused' }>;
      this.#change((kept) => (idOf(kept) === id ? { ...kept, refusal: words } : kept));
    }
  }

  #sendLater(): void {
    if (this.#isClosed) return;
    const waits = this.#options.retryMs ?? usualRetryMs;
    const wait = waits[Math.min(this.#attempts, waits.length - 1)] ?? 0;
    this.#attempts += 1;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#sendAll(), wait);
  }

  #waiting(): readonly KeptLetter[] {
    const all = [...lettersOn(this.#options.shelf), ...this.#unshelved];
    return all.filter(({ letter }) => letter.job === this.#options.job);
  }

  #change(change: (kept: KeptLetter) => KeptLetter | null): void {
    const changed = (letters: readonly KeptLetter[]): KeptLetter[] =>
      letters.flatMap((kept) => change(kept) ?? []);
    changeLetters(this.#options.shelf, changed);
    this.#unshelved = changed(this.#unshelved);
    this.#options.onChange();
  }
}

function idOf({ letter }: KeptLetter): string {
  return letter.body.id;
}
