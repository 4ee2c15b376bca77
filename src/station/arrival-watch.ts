import { type ByteRange, type Inspection, inspectArrived, SparseSource } from '../formats/index.ts';
import { type CutPreview, cutPreview, rankOfCut, type ViewRank, viewToCut } from './core/first-view.ts';
import { FileReader } from './file-reader.ts';

/** What a watch tells while its file arrives. Called in order, never two at once. */
export interface WatchListener {
  /** The structure says more than before: its kind, how long the file must become. */
  inspected(inspection: Inspection): void;
  /** A view to show, the first or a better one. */
  preview(preview: CutPreview): void;
}

/**
 * Looks at one file while it arrives, beside the receiving and never in its way: reads back from the page cache the few
 * ranges that `formats` asks for, and cuts out each preview as soon as its last byte is there, and of a JPEG what has come
 * of it.
 */
export class ArrivalWatch {
  readonly #path: string;
  readonly #listener: WatchListener;
  readonly #source = new SparseSource();
  #reader: FileReader | null = null;
  #inspection: Inspection | null = null;
  #shown: ViewRank | null = null;
  /** The round under way; further news waits for it and starts one more. */
  #round: Promise<void> | null = null;
  #again = false;
  #closed = false;

  constructor(path: string, listener: WatchListener) {
    this.#path = path;
    this.#listener = listener;
  }

  /** The file is now this long. Returns at once; a round is started where the new bytes can bring news. */
  grew(sizeBytes: number): void {
    this.#source.grow(sizeBytes);
    // Of a file that is empty yet there is nothing to say.
    const awaited = this.#inspection === null ? 1 : this.#inspection.wantedNext;
    if (awaited !== null && sizeBytes >= awaited) this.#start();
  }

  /** Settles when the news so far has been looked at. */
  async settled(): Promise<void> {
    while (this.#round !== null) await this.#round;
  }

  /** All bytes are there: the last inspection, with what the whole structure proves. Rejects where reading fails. */
  async ended(sizeBytes: number): Promise<Inspection> {
    await this.#idle();
    this.#source.grow(sizeBytes);
    this.#source.end();
    return this.#look();
  }

  async close(): Promise<void> {
    await this.#idle();
    await this.#reader?.close();
    this.#reader = null;
  }

  /** No further round begins, and the one under way has ended. */
  async #idle(): Promise<void> {
    this.#closed = true;
    await this.settled();
  }

  #start(): void {
    if (this.#closed) return;
    if (this.#round !== null) {
      this.#again = true;
      return;
    }
    // A file that cannot be read now is read again at its end, where a failure is told.
    this.#round = this.#look()
      .catch(() => {})
      .then(() => {
        this.#round = null;
        if (this.#again) {
          this.#again = false;
          this.#start();
        }
      });
  }

  async #look(): Promise<Inspection> {
    const inspection = await inspectArrived(this.#source, (range) => this.#read(range), {
      previous: this.#inspection,
    });
    this.#inspection = inspection;
    this.#listener.inspected(inspection);
    await this.#cut(inspection);
    return inspection;
  }

  async #read(range: ByteRange): Promise<Uint8Array | null> {
    this.#reader ??= await FileReader.open(this.#path);
    return this.#reader.read(range);
  }

  async #cut(inspection: Inspection): Promise<void> {
    const cut = viewToCut(inspection, this.#shown);
    if (cut === null) return;
    const bytes = await this.#read(cut.range);
    if (bytes === null) return;
    this.#shown = rankOfCut(cut);
    this.#listener.preview(cutPreview(bytes, cut, inspection));
  }
}

/** Looks at a file that is all there, once. Rejects where it cannot be read. */
export async function inspectFile(path: string, sizeBytes: number): Promise<Inspection> {
  const watch = new ArrivalWatch(path, { inspected: () => {}, preview: () => {} });
  try {
    return await watch.ended(sizeBytes);
  } finally {
    await watch.close();
  }
}

/** The best preview inside a file that is all there, or null. */
export async function findPreview(path: string, sizeBytes: number): Promise<CutPreview | null> {
  let best: CutPreview | null = null;
  const watch = new ArrivalWatch(path, {
    inspected: () => {},
    preview: (preview) => {
      best = preview;
    },
  });
  try {
    await watch.ended(sizeBytes);
    return best;
  } finally {
    await watch.close();
  }
}
