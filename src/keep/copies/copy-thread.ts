import { Worker } from 'node:worker_threads';
import { errorMessage } from '../../base/index.ts';
import type { CopyAnswer, CopyRequest } from './copy-messages.ts';
import type {
  Copier,
  CopyOutcome,
  JournalOutcome,
  PlaceAddress,
  PlaceCheck,
  PlaceTrouble,
} from './copy-shapes.ts';
import { inlineCopier } from './inline-copier.ts';

/** A thread that waits for a disk cannot be ended before the disk answers: longer than this nobody waits for it. */
const closePatienceMs = 2000;

/** A copier for a place: in a thread of its own, or in line where this runs from sources, which no thread can load. */
export function openCopier(address: PlaceAddress): Copier {
  return import.meta.url.endsWith('.js') ? new CopyThread(address) : inlineCopier(address);
}

class CopyThread implements Copier {
  readonly #address: PlaceAddress;
  #worker: Worker | null = null;
  #asked: { resolve: (answer: CopyAnswer) => void; reject: (cause: unknown) => void } | null = null;

  constructor(address: PlaceAddress) {
    this.#address = address;
  }

  async check(found: boolean): Promise<PlaceCheck> {
    const answer = await this.#ask({ kind: 'check', found });
    return answer.kind === 'check' ? answer.outcome : threadTrouble(answer);
  }

  async copy(file: Parameters<Copier['copy']>[0]): Promise<CopyOutcome> {
    const answer = await this.#ask({ kind: 'copy', file });
    return answer.kind === 'copy' ? answer.outcome : threadTrouble(answer);
  }

  async copyJournal(): Promise<JournalOutcome> {
    const answer = await this.#ask({ kind: 'journal' });
    return answer.kind === 'journal' ? answer.outcome : threadTrouble(answer);
  }

  async close(): Promise<void> {
    const worker = this.#worker;
    this.#worker = null;
    if (worker === null) return;
    const patience = new Promise<void>((resolve) => setTimeout(resolve, closePatienceMs).unref());
    await Promise.race([worker.terminate(), patience]);
  }

  /** Rejects never: a thread that is lost is a trouble of the place, and the next question starts another. */
  async #ask(request: CopyRequest): Promise<CopyAnswer | ThreadLost> {
    try {
      const worker = this.#worker ?? this.#start();
      return await new Promise<CopyAnswer>((resolve, reject) => {
        this.#asked = { resolve, reject };
        worker.postMessage(request);
      });
    } catch (thrown) {
      return { kind: 'lost', why: errorMessage(thrown) };
    }
  }

  #start(): Worker {
    const worker = new Worker(new URL('./copy-worker.js', import.meta.url), { workerData: this.#address });
    // An idle copier must not keep a process alive that has nothing else to do.
    worker.unref();
    worker.on('message', (answer: CopyAnswer) => this.#asked?.resolve(answer));
    worker.on('error', (cause) => this.#lose(worker, cause));
    worker.on('exit', () => this.#lose(worker, new Error('the thread ended')));
    this.#worker = worker;
    return worker;
  }

  #lose(worker: Worker, cause: unknown): void {
    if (this.#worker === worker) this.#worker = null;
    this.#asked?.reject(cause);
  }
}

interface ThreadLost {
  readonly kind: 'lost';
  readonly why: string;
}

function threadTrouble(answer: CopyAnswer | ThreadLost): PlaceTrouble {
  return { kind: 'place', trouble: 'failed', why: answer.kind === 'lost' ? answer.why : 'another answer' };
}
