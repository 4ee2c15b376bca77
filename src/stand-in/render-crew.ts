/** A few worker threads that take render jobs in the order they were given. */
import { availableParallelism } from 'node:os';
import { setImmediate as immediate } from 'node:timers/promises';
import { Worker } from 'node:worker_threads';
import { SetsideError } from '../base/index.ts';
import { standInErrorCodes } from './errors.ts';
import { type RenderAnswer, type RenderJob, runRenderJob, type SceneShelf } from './render-jobs.ts';

export interface RenderCrew {
  /** Settles with the answer of the same kind. Rejects `stand-in-worker-failed`. */
  run<K extends RenderJob['kind']>(job: Extract<RenderJob, { kind: K }>): Promise<AnswerTo<K>>;
  /** Ends the threads; jobs under way reject. */
  close(): Promise<void>;
  readonly threads: number;
}

export type AnswerTo<K extends RenderJob['kind']> = Extract<RenderAnswer, { kind: K }>;

interface Waiting {
  readonly job: RenderJob;
  readonly settle: (answer: RenderAnswer) => void;
  readonly fail: (failure: SetsideError) => void;
}

/** A rendering is a matter of seconds: more threads would only take the station's. */
const threadsMax = 4;

/**
 * `threads` 0 runs every job on the caller's thread, which is what tests on unbuilt sources do: a worker thread
 * starts from the built file only.
 */
export function createRenderCrew(threads: number = defaultThreads()): RenderCrew {
  return threads === 0 ? inlineCrew() : new WorkerCrew(threads);
}

function defaultThreads(): number {
  if (import.meta.url.endsWith('.ts')) return 0;
  return Math.min(threadsMax, Math.max(1, availableParallelism()));
}

function inlineCrew(): RenderCrew {
  const shelf: SceneShelf = { scene: null };
  return {
    threads: 0,
    async run<K extends RenderJob['kind']>(job: Extract<RenderJob, { kind: K }>) {
      // Timers and signals get their turn between two jobs.
      await immediate();
      // Kind in, same kind out: runRenderJob's own contract.
      return runRenderJob(job, shelf) as AnswerTo<K>;
    },
    async close() {},
  };
}

class WorkerCrew implements RenderCrew {
  readonly threads: number;
  readonly #queue: Waiting[] = [];
  readonly #idle: Worker[] = [];
  readonly #busy = new Map<Worker, Waiting>();
  #closed = false;

  constructor(threads: number) {
    this.threads = threads;
    for (let k = 0; k < threads; k++) this.#idle.push(this.#hire());
  }

  run<K extends RenderJob['kind']>(job: Extract<RenderJob, { kind: K }>): Promise<AnswerTo<K>> {
    return new Promise((resolve, fail) => {
      // Kind in, same kind out: runRenderJob's own contract.
      this.#queue.push({ job, settle: (answer) => resolve(answer as AnswerTo<K>), fail });
      this.#deal();
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    const workers = [...this.#idle, ...this.#busy.keys()];
    this.#idle.length = 0;
    for (const waiting of [...this.#busy.values(), ...this.#queue.splice(0)]) {
      waiting.fail(crewError('the crew was closed'));
    }
    this.#busy.clear();
    await Promise.all(workers.map((worker) => worker.terminate()));
  }

  #hire(): Worker {
    const worker = new Worker(new URL('./render-worker.js', import.meta.url));
    worker.on('message', (message: { answer?: RenderAnswer; failure?: string }) => {
      const waiting = this.#busy.get(worker);
      this.#busy.delete(worker);
      this.#idle.push(worker);
      if (message.answer === undefined) waiting?.fail(crewError(message.failure ?? 'no answer'));
      else waiting?.settle(message.answer);
      this.#deal();
    });
    worker.on('error', (failure) => this.#replace(worker, failure.message));
    worker.unref();
    return worker;
  }

  /** A dead worker fails its own job only. */
  #replace(worker: Worker, why: string): void {
    this.#busy.get(worker)?.fail(crewError(why));
    this.#busy.delete(worker);
    const index = this.#idle.indexOf(worker);
    if (index >= 0) this.#idle.splice(index, 1);
    if (this.#closed) return;
    this.#idle.push(this.#hire());
    this.#deal();
  }

  #deal(): void {
    while (this.#idle.length > 0 && this.#queue.length > 0) {
      const worker = this.#idle.pop();
      const waiting = this.#queue.shift();
      if (worker === undefined || waiting === undefined) return;
      this.#busy.set(worker, waiting);
      worker.ref();
      worker.postMessage(waiting.job);
    }
    for (const worker of this.#idle) worker.unref();
  }
}

function crewError(why: string): SetsideError {
  return new SetsideError(standInErrorCodes.workerFailed, `a render worker failed: ${why}`, {
    retryable: true,
  });
}
