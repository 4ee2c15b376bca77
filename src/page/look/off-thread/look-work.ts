import type { Finding } from '../../../facts/index.ts';
import type { ExrPicture } from '../../../image/index.ts';
import type { Look, LookProfile, LookTable } from '../../../look/index.ts';
import type { Tables } from '../painter/painter.ts';
import type { Pace } from './compiler.ts';
import type { WorkReply, WorkRequest } from './messages.ts';

export interface CompiledTables extends Tables {
  readonly findings: readonly Finding[];
}

interface CompileWish {
  readonly look: Look;
  readonly profile: LookProfile;
  readonly pace: Pace;
  readonly done: (tables: CompiledTables | null) => void;
}

/** The page's hand on its worker: reads scenes, compiles looks, the newest wish first and no other. */
export class LookWork {
  readonly #worker = new Worker(new URL('./look-worker.ts', import.meta.url), { type: 'module' });
  readonly #scenes = new Map<number, (picture: ExrPicture | null) => void>();
  #nextId = 1;
  #compiling: CompileWish | null = null;
  #waiting: CompileWish | null = null;
  #table: LookTable | null = null;

  constructor() {
    this.#worker.addEventListener('message', ({ data }: MessageEvent<WorkReply>) => this.#take(data));
  }

  /** Null for bytes that are no scene. The bytes are moved away. */
  readScene(bytes: ArrayBuffer): Promise<ExrPicture | null> {
    const id = this.#nextId++;
    return new Promise((resolve) => {
      this.#scenes.set(id, resolve);
      this.#ask({ id, kind: 'scene', bytes }, [bytes]);
    });
  }

  /** Null where a newer wish took its place. */
  compile(look: Look, profile: LookProfile, pace: Pace): Promise<CompiledTables | null> {
    return new Promise((done) => {
      this.#waiting?.done(null);
      this.#waiting = { look, profile, pace, done };
      this.#next();
    });
  }

  close(): void {
    this.#worker.terminate();
  }

  #next(): void {
    if (this.#compiling !== null || this.#waiting === null) return;
    this.#compiling = this.#waiting;
    this.#waiting = null;
    const { look, profile, pace } = this.#compiling;
    this.#ask({ id: this.#nextId++, kind: 'compile', look, profile, pace });
  }

  #take(reply: WorkReply): void {
    if (reply.kind === 'scene') {
      this.#scenes.get(reply.id)?.(reply.picture);
      this.#scenes.delete(reply.id);
      return;
    }
    const { matrix, curve, table, findings } = reply;
    if (table !== 'known') this.#table = table;
    const falloffEv = this.#compiling?.look.falloffEv ?? 0;
    this.#compiling?.done({ matrix, curve, table: this.#table, falloffEv, findings });
    this.#compiling = null;
    this.#next();
  }

  #ask(request: WorkRequest, moved: Transferable[] = []): void {
    this.#worker.postMessage(request, moved);
  }
}
