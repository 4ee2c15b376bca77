import type { Worker } from 'node:worker_threads';
import { workerError } from './errors.ts';
import type { WorkerReply, WorkerRequest } from './pool-messages.ts';
import { wireToError } from './wire-error.ts';

export interface WorkerPoolOptions<Task> {
  /** Threads at most; >= 1. They are started when there is work for them. */
  readonly size: number;
  /** Starts a thread that answers each `WorkerRequest` with a `WorkerReply`. */
  readonly spawn: () => Worker;
  /** A worker without work for this long is ended, so that its memory goes, ms. */
  readonly idleMs: number;
  /** A job that takes longer is ended together with its worker, ms. */
  readonly jobMsMax: number;
  /** What a task is about. Of the workers at rest, the one that was last busy with the same is taken. */
  readonly subjectOf?: (task: Task) => string;
}

/**
 * Threads that do one job each at a time, first come first served. Every promise settles: with the answer, the job's own
 * error, `worker-crashed`, `worker-too-slow`, `worker-pool-closed`, or the signal's reason.
 *
 * ```
 *            spawn                 post                   reply
 *   (no seat) ───▶ seat, idle ─────────▶ seat, working ─────────▶ seat, idle ──idleMs──▶ (no seat)
 *                                            │ crash, abort, too slow, retire
 *                                            └─────────────────────────────────────────▶ (no seat)
 * ```
 */
export class WorkerPool<Task, Answer> {
  readonly #options: WorkerPoolOptions<Task>;
  readonly #seats = new Set<Seat<Answer>>();
  readonly #waiting: Waiting<Task, Answer>[] = [];
  #nextId = 1;
  #closed = false;

  constructor(options: WorkerPoolOptions<Task>) {
    this.#options = options;
  }

  run(task: Task, signal?: AbortSignal): Promise<Answer> {
    if (this.#closed) return Promise.reject(workerError('worker-pool-closed'));
    if (signal?.aborted) return Promise.reject(signal.reason);
    return new Promise((resolve, reject) => {
      const abort = (): void => this.#abort(waiting);
      // A station hands one signal to thousands of jobs: what is settled must not stay on its list.
      const forget = (): void => signal?.removeEventListener('abort', abort);
      const settle: Settle<Answer> = {
        resolve: (answer) => {
          forget();
          resolve(answer);
        },
        reject: (reason) => {
          forget();
          reject(reason);
        },
      };
      const waiting: Waiting<Task, Answer> = { task, settle, signal };
      this.#waiting.push(waiting);
      signal?.addEventListener('abort', abort);
      this.#assign();
    });
  }

  /** Ends all threads; jobs not done are rejected with `worker-pool-closed`. */
  async close(): Promise<void> {
    this.#closed = true;
    for (const { settle } of this.#waiting.splice(0)) settle.reject(workerError('worker-pool-closed'));
    await Promise.all([...this.#seats].map((seat) => this.#end(seat, workerError('worker-pool-closed'))));
  }

  #assign(): void {
    while (this.#waiting.length > 0) {
      const [waiting] = this.#waiting;
      if (waiting === undefined) return;
      const subject = this.#options.subjectOf?.(waiting.task) ?? null;
      const seat = this.#restingSeat(subject) ?? this.#newSeat();
      if (seat === null) return;
      this.#waiting.shift();
      seat.subject = subject;
      this.#start(seat, waiting);
    }
  }

  #restingSeat(subject: string | null): Seat<Answer> | undefined {
    const resting = [...this.#seats].filter(({ current }) => current === null);
    return resting.find((seat) => seat.subject === subject) ?? resting[0];
  }

  #newSeat(): Seat<Answer> | null {
    if (this.#seats.size >= this.#options.size) return null;
    const worker = this.#options.spawn();
    const seat: Seat<Answer> = { worker, current: null, subject: null, timer: undefined };
    this.#seats.add(seat);
    worker.on('message', (reply: WorkerReply<Answer>) => this.#receive(seat, reply));
    worker.on('error', (cause) =>
      this.#end(seat, workerError('worker-crashed', { why: String(cause) }, cause)),
    );
    worker.on('exit', (code) => this.#end(seat, workerError('worker-crashed', { exitCode: code })));
    return seat;
  }

  #start(seat: Seat<Answer>, { task, settle }: Waiting<Task, Answer>): void {
    const id = this.#nextId++;
    clearTimeout(seat.timer);
    seat.worker.ref();
    seat.current = { id, settle };
    seat.timer = setTimeout(() => {
      this.#end(seat, workerError('worker-too-slow', { ms: this.#options.jobMsMax }));
    }, this.#options.jobMsMax);
    const request: WorkerRequest<Task> = { id, task };
    seat.worker.postMessage(request);
  }

  #receive(seat: Seat<Answer>, reply: WorkerReply<Answer>): void {
    const { current } = seat;
    if (current === null || current.id !== reply.id) return;
    seat.current = null;
    clearTimeout(seat.timer);
    if ('error' in reply) current.settle.reject(wireToError(reply.error));
    else current.settle.resolve(reply.answer);
    if (reply.retire) this.#end(seat, null);
    else this.#rest(seat);
    this.#assign();
  }

  #rest(seat: Seat<Answer>): void {
    seat.timer = setTimeout(() => this.#end(seat, null), this.#options.idleMs);
    // A resting worker does not keep the process alive; neither does its clock.
    seat.timer.unref();
    seat.worker.unref();
  }

  /** A waiting job is forgotten; a running one can only be stopped by ending its thread (LibRaw does not yield). */
  #abort(waiting: Waiting<Task, Answer>): void {
    const place = this.#waiting.indexOf(waiting);
    if (place >= 0) {
      this.#waiting.splice(place, 1);
      waiting.settle.reject(waiting.signal?.reason);
      return;
    }
    const seat = [...this.#seats].find(({ current }) => current?.settle === waiting.settle);
    if (seat !== undefined) this.#end(seat, waiting.signal?.reason);
  }

  async #end(seat: Seat<Answer>, reason: unknown): Promise<void> {
    if (!this.#seats.delete(seat)) return;
    clearTimeout(seat.timer);
    seat.current?.settle.reject(reason);
    seat.current = null;
    await seat.worker.terminate();
    this.#assign();
  }
}

interface Settle<Answer> {
  readonly resolve: (answer: Answer) => void;
  readonly reject: (reason: unknown) => void;
}

interface Waiting<Task, Answer> {
  readonly task: Task;
  readonly settle: Settle<Answer>;
  readonly signal: AbortSignal | undefined;
}

interface Seat<Answer> {
  readonly worker: Worker;
  current: { readonly id: number; readonly settle: Settle<Answer> } | null;
  /** What it was last busy with. */
  subject: string | null;
  /** While working: the bound of the job. While resting: the end of patience. */
  timer: NodeJS.Timeout | undefined;
}
