import type { Wholeness } from '../facts/index.ts';
import { ArrivalWatch, inspectFile, type WatchListener } from './arrival-watch.ts';

/** The watches of the files that arrive now. */
export class ArrivalWatches {
  /** By path in incoming/, which is how `keep` asks for a file's wholeness. */
  readonly #byPath = new Map<string, ArrivalWatch>();
  readonly #pathOf = new Map<string, string>();

  /** Given to `keep`: what the structure of a file proves about its end. A file that is watched is known already. */
  async inspect(file: { readonly path: string; readonly sizeBytes: number }): Promise<Wholeness> {
    const watch = this.#byPath.get(file.path);
    const inspection = await (watch?.ended(file.sizeBytes) ?? inspectFile(file.path, file.sizeBytes));
    return inspection.wholeness;
  }

  begin(arrival: string, path: string, sizeBytes: number, listener: WatchListener): void {
    const watch = new ArrivalWatch(path, listener);
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

  async close(): Promise<void> {
    for (const arrival of [...this.#pathOf.keys()]) await this.end(arrival);
  }
}
