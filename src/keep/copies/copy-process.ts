import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { errorMessage } from '../../base/index.ts';
import type { CopyAnswer, CopyRequest } from './copy-messages.ts';
import type {
  Copier,
  CopyOutcome,
  CopyToLookFor,
  CopyWay,
  FileToCopy,
  JournalOutcome,
  LookOutcome,
  PlaceCheck,
  PlaceTrouble,
} from './copy-shapes.ts';
import { inlineCopier } from './inline-copier.ts';

/** A process takes some 40 MB: one that has had nothing to do for so long is ended. */
const idleMs = 30_000;

/** A copier for a place: in a process of its own, or in line where this runs from sources, which no process can load. */
export function openCopier(way: CopyWay): Copier {
  return import.meta.url.endsWith('.js') ? new CopyProcess(way) : inlineCopier(way);
}

/**
 * A process and not a thread: a call of the system that waits for a disk cannot be interrupted, and a thread that is in
 * one keeps its whole process from ending. This one is left behind.
 */
class CopyProcess implements Copier {
  readonly #way: CopyWay;
  #child: ChildProcess | null = null;
  #asked: { resolve: (answer: CopyAnswer) => void; reject: (cause: unknown) => void } | null = null;
  #idle: NodeJS.Timeout | null = null;

  constructor(way: CopyWay) {
    this.#way = way;
  }

  async check(place: string, found: boolean): Promise<PlaceCheck> {
    const answer = await this.#ask({ kind: 'check', place, found });
    return answer.kind === 'check' ? answer.outcome : processTrouble(answer);
  }

  async copy(place: string, file: FileToCopy): Promise<CopyOutcome> {
    const answer = await this.#ask({ kind: 'copy', place, file });
    return answer.kind === 'copy' ? answer.outcome : processTrouble(answer);
  }

  async look(place: string, copies: readonly CopyToLookFor[]): Promise<LookOutcome> {
    const asked = copies.map(({ arrival, original, sizeBytes }) => ({ arrival, original, sizeBytes }));
    const answer = await this.#ask({ kind: 'look', place, copies: asked });
    return answer.kind === 'look' ? answer.outcome : processTrouble(answer);
  }

  async copyJournal(place: string): Promise<JournalOutcome> {
    const answer = await this.#ask({ kind: 'journal', place });
    return answer.kind === 'journal' ? answer.outcome : processTrouble(answer);
  }

  async close(): Promise<void> {
    this.#end();
  }

  /** Rejects never: a process that is lost is a trouble of the place, and the next question starts another. */
  async #ask(request: CopyRequest): Promise<CopyAnswer | ProcessLost> {
    if (this.#idle !== null) clearTimeout(this.#idle);
    try {
      const child = this.#child ?? this.#start();
      return await new Promise<CopyAnswer>((resolve, reject) => {
        this.#asked = { resolve, reject };
        child.send(request);
      });
    } catch (thrown) {
      return { kind: 'lost', why: errorMessage(thrown) };
    } finally {
      this.#asked = null;
      this.#idle = setTimeout(() => this.#end(), idleMs);
      this.#idle.unref();
    }
  }

  #start(): ChildProcess {
    const entry = fileURLToPath(new URL('./copy-child.js', import.meta.url));
    const child = fork(entry, [JSON.stringify(this.#way), String(process.pid)], {
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    // An idle copier must not keep the station from ending.
    child.unref();
    child.channel?.unref();
    child.on('message', (answer: CopyAnswer) => this.#asked?.resolve(answer));
    child.on('error', (cause) => this.#lose(child, cause));
    child.on('exit', () => this.#lose(child, new Error('the copying process ended')));
    this.#child = child;
    return child;
  }

  #lose(child: ChildProcess, cause: unknown): void {
    if (this.#child === child) this.#child = null;
    this.#asked?.reject(cause);
  }

  /** What it was copying is written anew next time; nothing half is ever given its name. */
  #end(): void {
    const child = this.#child;
    this.#child = null;
    this.#asked?.reject(new Error('the station stops'));
    child?.kill('SIGKILL');
  }
}

interface ProcessLost {
  readonly kind: 'lost';
  readonly why: string;
}

function processTrouble(answer: CopyAnswer | ProcessLost): PlaceTrouble {
  return { kind: 'place', trouble: 'failed', why: answer.kind === 'lost' ? answer.why : 'another answer' };
}
