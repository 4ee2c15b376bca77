import { SetsideError } from '../base/index.ts';
import type { Arrival, ArrivalEnd, ArrivalOutcome } from './arrival-shapes.ts';
import type { KeepContext, LiveBytes } from './context.ts';
import { fileOf } from './core/keep-event.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import { beatMs, ProgressBeat } from './core/progress-beat.ts';
import type { DiskFile } from './disk.ts';
import { endArrival } from './end-arrival.ts';
import { diskError } from './errors.ts';
import type { HashSession } from './hash-session.ts';
import { IncomingWriter } from './incoming-writer.ts';

/** One file on its way in, from the announcement to its outcome. */
export class LiveArrival implements Arrival, LiveBytes {
  readonly id: string;
  readonly offsetBytes: number;
  readonly #context: KeepContext;
  readonly #known: KnownArrival;
  readonly #writer: IncomingWriter;
  readonly #beat: ProgressBeat;
  /** Tells the last bytes before a pause of the line, which came too soon after the last word. */
  #trailing: NodeJS.Timeout | null = null;
  #outcome: Promise<ArrivalOutcome> | null = null;

  /** `file` holds `offsetBytes`, and `hash` has been told of them. */
  constructor(
    context: KeepContext,
    known: KnownArrival,
    file: DiskFile,
    hash: HashSession,
    offsetBytes: number,
  ) {
    this.id = known.id;
    this.offsetBytes = offsetBytes;
    this.#context = context;
    this.#known = known;
    this.#beat = new ProgressBeat(offsetBytes, context.now());
    this.#writer = new IncomingWriter(file, hash, offsetBytes, {
      now: context.now,
      lanes: context.syncLanes,
      grown: (sizeBytes, atMs) => this.#grown(sizeBytes, atMs),
      synced: (sizeBytes) => {
        // Only a help for a resume after power loss: should it fail, that resume starts earlier.
        this.#recordSynced(sizeBytes).catch(() => {});
      },
    });
    context.live.set(known.id, this);
  }

  get camera(): string {
    return this.#known.camera;
  }

  get heldBytes(): number {
    return this.#writer.heldBytes;
  }

  get lastByteMs(): number | null {
    return this.#writer.lastByteMs;
  }

  write(bytes: Uint8Array): Promise<void> {
    if (this.#outcome !== null) {
      return Promise.reject(
        new SetsideError('keep-closed', `arrival ${this.id} has ended and takes no bytes`),
      );
    }
    return this.#writer.write(bytes);
  }

  /** The record says how far a resume may rely on the bytes, as {@link IncomingWriter} does for a long file. */
  async sync(): Promise<void> {
    try {
      await this.#recordSynced(await this.#writer.sync());
    } catch (cause) {
      throw diskError(cause);
    }
  }

  finish(end: ArrivalEnd): Promise<ArrivalOutcome> {
    this.#outcome ??= this.#finish(end);
    return this.#outcome;
  }

  async #finish(end: ArrivalEnd): Promise<ArrivalOutcome> {
    try {
      return await endArrival(this.#context, this.#known, this.#writer, this.offsetBytes, end);
    } finally {
      if (this.#trailing !== null) clearTimeout(this.#trailing);
      this.#context.live.delete(this.id);
    }
  }

  /** Bytes that are durable are found again only if their name is. */
  async #recordSynced(sizeBytes: number): Promise<void> {
    const { disk, folders, journal } = this.#context;
    await disk.syncFolder(folders.incomingFolder);
    await journal.append({ type: 'synced', arrival: this.id, sizeBytes });
  }

  #grown(sizeBytes: number, atMs: number): void {
    if (this.#beat.due(sizeBytes, atMs)) this.#tellProgress(sizeBytes, atMs);
    else this.#trailing ??= setTimeout(() => this.#tellLast(), beatMs);
  }

  #tellLast(): void {
    this.#trailing = null;
    const atMs = this.#context.now();
    const { heldBytes } = this.#writer;
    if (this.#beat.last(heldBytes, atMs)) this.#tellProgress(heldBytes, atMs);
  }

  #tellProgress(sizeBytes: number, atMs: number): void {
    const { firstByteMs, lastByteMs } = this.#writer;
    const file = fileOf(this.#known, this.#context.folders, atMs);
    const first = this.#known.firstByteMs ?? firstByteMs;
    this.#context.tell({ ...file, type: 'progress', sizeBytes, firstByteMs: first, lastByteMs });
  }
}
