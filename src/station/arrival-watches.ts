import type { Wholeness } from '../facts/index.ts';
import type { Inspection } from '../formats/index.ts';
import { ArrivalWatch, inspectFile, type WatchListener } from './arrival-watch.ts';

/** Most last looks that wait for their taker: many times as many files as are on their way to being developed. */
export const lastLooksMax = 64;

interface LastLook {
  readonly sizeBytes: number;
  readonly inspection: Inspection;
}

/** The watches of the files that arrive now. */
export class ArrivalWatches {
  /** By path in incoming/, which is how `keep` asks for a file's wholeness. */
  readonly #byPath = new Map<string, ArrivalWatch>();
  readonly #pathOf = new Map<string, string>();
  readonly #arrivalOf = new WeakMap<ArrivalWatch, string>();
  /** By arrival, the oldest first. */
  readonly #lastLooks = new Map<string, LastLook>();

  /** Given to `keep`: what the structure of a file proves about its end. A file that is watched is known already. */
  async inspect(file: { readonly path: string; readonly sizeBytes: number }): Promise<Wholeness> {
    const watch = this.#byPath.get(file.path);
    if (watch === undefined) return (await inspectFile(file.path, file.sizeBytes)).wholeness;
    const inspection = await watch.ended(file.sizeBytes);
    this.#keepLook(watch, { sizeBytes: file.sizeBytes, inspection });
    return inspection.wholeness;
  }

  /**
   * What the last look into a file of this length said, once: whoever takes a file up right after it has come need not
   * read it again. Null where nobody looked, or others have come since.
   */
  takeLastLook(arrival: string, sizeBytes: number): Inspection | null {
    const look = this.#lastLooks.get(arrival);
    this.#lastLooks.delete(arrival);
    return look?.sizeBytes === sizeBytes ? look.inspection : null;
  }

  begin(arrival: string, path: string, sizeBytes: number, listener: WatchListener): void {
    const watch = new ArrivalWatch(path, listener);
    this.#lastLooks.delete(arrival);
    this.#arrivalOf.set(watch, arrival);
    this.#byPath.set(path, watch);
    this.#pathOf.set(arrival, path);
    watch.grew(sizeBytes);
  }

  grew(arrival: string, sizeBytes: number): void {
    const path = this.#pathOf.get(arrival);
    if (path !== undefined) this.#byPath.get(path)?.grew(sizeBytes);
  }

  /** The file is no longer arriving. Settles when its watch is closed. */
  async end(arrival: string): Promise<void> {
    const path = this.#pathOf.get(arrival);
    this.#pathOf.delete(arrival);
    if (path === undefined) return;
    const watch = this.#byPath.get(path);
    this.#byPath.delete(path);
    await watch?.close();
  }

  #keepLook(watch: ArrivalWatch, look: LastLook): void {
    const arrival = this.#arrivalOf.get(watch);
    if (arrival === undefined) return;
    this.#lastLooks.set(arrival, look);
    const [oldest] = this.#lastLooks.keys();
    if (this.#lastLooks.size > lastLooksMax && oldest !== undefined) this.#lastLooks.delete(oldest);
  }

  async close(): Promise<void> {
    for (const arrival of [...this.#pathOf.keys()]) await this.end(arrival);
  }
}
