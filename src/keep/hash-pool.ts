import { Worker } from 'node:worker_threads';
import { SetsideError } from '../base/index.ts';
import type { HashAnswer, HashRequest } from './hash-messages.ts';
import type { Hashing, HashSession } from './hash-session.ts';

/** Hashing in worker threads. A file stays with one worker; a new file goes to the one with the fewest. */
export class HashPool implements Hashing {
  readonly #entry: URL;
  readonly #threads: HashThread[];

  constructor(entry: URL, workers: number) {
    this.#entry = entry;
    this.#threads = Array.from({ length: workers }, () => new HashThread(entry));
  }

  begin(): HashSession {
    return this.#leastBusy().begin();
  }

  async close(): Promise<void> {
    await Promise.all(this.#threads.map((thread) => thread.close()));
  }

  /** A worker that died is replaced when the next file comes. */
  #leastBusy(): HashThread {
    for (const [index, thread] of this.#threads.entries()) {
      if (thread.dead) this.#threads[index] = new HashThread(this.#entry);
    }
    return this.#threads.reduce((least, thread) => (thread.sessions < least.sessions ? thread : least));
  }
}

interface Asked {
  readonly resolve: (sha256: string | null) => void;
  readonly reject: (cause: unknown) => void;
}

class HashThread {
  readonly #worker: Worker;
  readonly #asked = new Map<number, Asked>();
  #lastRequest = 0;
  #lastSession = 0;
  sessions = 0;
  dead = false;

  constructor(entry: URL) {
    this.#worker = new Worker(entry);
    // An idle hash worker must not keep a process alive that has nothing else to do.
    this.#worker.unref();
    this.#worker.on('message', (answer: HashAnswer) => this.#settle(answer));
    this.#worker.on('error', (cause) => this.#die(cause));
    this.#worker.on('exit', () => this.#die(new Error('the worker ended')));
  }

  begin(): HashSession {
    this.#lastSession += 1;
    this.sessions += 1;
    return new PooledSession(this, this.#lastSession);
  }

  ask(message: HashMessage): Promise<string | null> {
    if (this.dead) return Promise.reject(hashLost(new Error('the worker is gone')));
    this.#lastRequest += 1;
    const request = this.#lastRequest;
    return new Promise((resolve, reject) => {
      this.#asked.set(request, { resolve, reject });
      this.#worker.postMessage({ ...message, request } satisfies HashRequest);
    });
  }

  async close(): Promise<void> {
    this.dead = true;
    await this.#worker.terminate();
  }

  #settle(answer: HashAnswer): void {
    const asked = this.#asked.get(answer.request);
    this.#asked.delete(answer.request);
    if (answer.ok) asked?.resolve(answer.sha256);
    else asked?.reject(hashLost(new Error(answer.message)));
  }

  #die(cause: unknown): void {
    this.dead = true;
    for (const asked of this.#asked.values()) asked.reject(hashLost(cause));
    this.#asked.clear();
  }
}

type WithoutNumber<Request> = Request extends HashRequest ? Omit<Request, 'request'> : never;
type HashMessage = WithoutNumber<HashRequest>;

class PooledSession implements HashSession {
  readonly #thread: HashThread;
  readonly #session: number;
  #failure: unknown = null;

  constructor(thread: HashThread, session: number) {
    this.#thread = thread;
    this.#session = session;
  }

  async update(bytes: Uint8Array): Promise<void> {
    await this.#ask({ kind: 'bytes', session: this.#session, bytes });
  }

  async updateFromFile(path: string, sizeBytes: number): Promise<void> {
    await this.#ask({ kind: 'file', session: this.#session, path, sizeBytes });
  }

  async digest(): Promise<string> {
    const sha256 = await this.#thread.ask({ kind: 'digest', session: this.#session });
    if (this.#failure !== null) throw this.#failure;
    if (sha256 === null) throw hashLost(new Error('the worker gave no digest'));
    return sha256;
  }

  end(): void {
    this.#thread.sessions -= 1;
    // A worker that is gone has forgotten the session already.
    this.#thread.ask({ kind: 'end', session: this.#session }).catch(() => {});
  }

  async #ask(message: HashMessage): Promise<void> {
    try {
      await this.#thread.ask(message);
    } catch (cause) {
      this.#failure ??= cause;
      throw cause;
    }
  }
}

function hashLost(cause: unknown): SetsideError {
  return new SetsideError('hash-lost', 'a hash worker failed; the file is read once more', {
    cause,
    retryable: true,
  });
}
