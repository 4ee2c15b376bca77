import { workerError } from './errors.ts';

/**
 * A pool without threads: jobs run in the calling thread, one after the other. Abort and close settle the promise at once;
 * a job that already runs is left to finish for nobody.
 */
export class InlinePool<Task, Answer> {
  readonly #perform: (task: Task) => Promise<Answer>;
  readonly #closing = new AbortController();
  #last: Promise<unknown> = Promise.resolve();

  constructor(perform: (task: Task) => Promise<Answer>) {
    this.#perform = perform;
  }

  run(task: Task, signal?: AbortSignal): Promise<Answer> {
    const stop = AbortSignal.any([this.#closing.signal, ...(signal === undefined ? [] : [signal])]);
    const turn = this.#last.then(() => {
      stop.throwIfAborted();
      return this.#perform(task);
    });
    this.#last = turn.catch(() => undefined);
    return Promise.race([turn, rejectionOf(stop)]);
  }

  async close(): Promise<void> {
    this.#closing.abort(workerError('worker-pool-closed'));
    await this.#last;
  }
}

function rejectionOf(signal: AbortSignal): Promise<never> {
  return new Promise((_, reject) => {
    if (signal.aborted) reject(signal.reason);
    signal.addEventListener('abort', () => reject(signal.reason), { once: true });
  });
}
