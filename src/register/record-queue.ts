import type { RegisterRecord } from './records.ts';

interface Waiting {
  readonly record: RegisterRecord;
  readonly resolve: () => void;
  readonly reject: (cause: unknown) => void;
}

/**
 * Works records off in order; those that come while a transaction runs share the next one.
 *
 * After a failure it takes no more: a record that was passed over would be missing for ever, since the tables only
 * remember the last one they know. {@link takeUpAgain}, and go on from the register's `appliedSeq`.
 */
export class RecordQueue {
  readonly #apply: (records: readonly RegisterRecord[]) => Promise<void>;
  readonly #waiting: Waiting[] = [];
  #running: Promise<void> | null = null;
  #failure: unknown = null;

  constructor(apply: (records: readonly RegisterRecord[]) => Promise<void>) {
    this.#apply = apply;
  }

  /** Settles when the record is in the tables. Rejects, then and until it is taken up again, where a transaction failed. */
  add(record: RegisterRecord): Promise<void> {
    if (this.#failure !== null) return Promise.reject(this.#failure);
    return new Promise((resolve, reject) => {
      this.#waiting.push({ record, resolve, reject });
      this.#running ??= this.#run();
    });
  }

  /** Forgets a failure. The caller adds records from the last one in the tables on. */
  takeUpAgain(): void {
    this.#failure = null;
  }

  async idle(): Promise<void> {
    await this.#running;
  }

  async #run(): Promise<void> {
    // One turn's patience: records of one journal group come in the same turn.
    await Promise.resolve();
    while (this.#waiting.length > 0) {
      const batch = this.#waiting.splice(0);
      try {
        await this.#apply(batch.map(({ record }) => record));
        for (const { resolve } of batch) resolve();
      } catch (cause) {
        this.#failure = cause;
        for (const { reject } of [...batch, ...this.#waiting.splice(0)]) reject(cause);
      }
    }
    this.#running = null;
  }
}
