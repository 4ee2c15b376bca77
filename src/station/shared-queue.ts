import { SetsideError } from '../base/index.ts';

export interface SharedQueueOptions {
  /** Pieces of work under way at a time; >= 1. */
  readonly lanes: number;
  /** Pieces that may wait beside those. */
  readonly waitingMax: number;
}

/**
 * Work that several may ask for under one key and each may stop asking for. First come first served; what nobody waits
 * for any longer is not begun. What has begun is finished: its outcome is kept for the next one to ask.
 */
export class SharedQueue<Outcome> {
  readonly #options: SharedQueueOptions;
  readonly #pieces = new Map<string, Piece<Outcome>>();
  readonly #waiting: Piece<Outcome>[] = [];
  #busy = 0;

  constructor(options: SharedQueueOptions) {
    this.#options = options;
  }

  get waiting(): number {
    return this.#waiting.length;
  }

  /** Rejects as the work does, with the signal's reason, or with `busy` where too much waits already. */
  run(key: string, work: () => Promise<Outcome>, signal: AbortSignal): Promise<Outcome> {
    if (signal.aborted) return Promise.reject(signal.reason);
    const piece = this.#pieces.get(key) ?? this.#begin(key, work);
    if (piece === null) {
      return Promise.reject(
        new SetsideError('busy', `more than ${this.#options.waitingMax} pieces of work wait`, {
          retryable: true,
        }),
      );
    }
    return this.#listen(piece, signal);
  }

  #begin(key: string, work: () => Promise<Outcome>): Piece<Outcome> | null {
    const lanesFull = this.#busy >= this.#options.lanes;
    if (lanesFull && this.#waiting.length >= this.#options.waitingMax) return null;
    const piece: Piece<Outcome> = { key, work, askers: new Set() };
    this.#pieces.set(key, piece);
    this.#waiting.push(piece);
    // After this turn, so that whoever asked is listening when it ends.
    queueMicrotask(() => this.#next());
    return piece;
  }

  #listen(piece: Piece<Outcome>, signal: AbortSignal): Promise<Outcome> {
    return new Promise((resolve, reject) => {
      const forget = (): void => signal.removeEventListener('abort', leave);
      const asker: Asker<Outcome> = {
        resolve: (outcome) => {
          forget();
          resolve(outcome);
        },
        reject: (reason) => {
          forget();
          reject(reason);
        },
      };
      const leave = (): void => {
        piece.askers.delete(asker);
        if (piece.askers.size === 0) this.#drop(piece);
        asker.reject(signal.reason);
      };
      piece.askers.add(asker);
      signal.addEventListener('abort', leave);
    });
  }

  /** Takes a piece out of the queue; one that has begun is not there any more. */
  #drop(piece: Piece<Outcome>): void {
    const place = this.#waiting.indexOf(piece);
    if (place < 0) return;
    this.#waiting.splice(place, 1);
    this.#pieces.delete(piece.key);
  }

  #next(): void {
    if (this.#busy >= this.#options.lanes) return;
    const piece = this.#waiting.shift();
    if (piece === undefined) return;
    this.#busy += 1;
    piece
      .work()
      .then(
        (outcome) => this.#tell(piece, (asker) => asker.resolve(outcome)),
        (thrown: unknown) => this.#tell(piece, (asker) => asker.reject(thrown)),
      )
      .finally(() => {
        this.#busy -= 1;
        this.#next();
      });
    this.#next();
  }

  #tell(piece: Piece<Outcome>, tell: (asker: Asker<Outcome>) => void): void {
    this.#pieces.delete(piece.key);
    for (const asker of piece.askers) tell(asker);
  }
}

interface Piece<Outcome> {
  readonly key: string;
  readonly work: () => Promise<Outcome>;
  readonly askers: Set<Asker<Outcome>>;
}

interface Asker<Outcome> {
  readonly resolve: (outcome: Outcome) => void;
  readonly reject: (reason: unknown) => void;
}
