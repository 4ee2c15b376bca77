import type { KnownArrival } from './known-arrival.ts';

type Named = Pick<KnownArrival, 'id' | 'camera' | 'announcedPath' | 'path'>;

/**
 * Kept arrivals by camera, hash and name: what is asked of each file that comes, and of each record at a start. A file that a
 * camera sends a thousand times under other names costs no more than one.
 */
export class KeptByHash {
  /** With each arrival's place in the order of keeping, which a rename does not change. */
  readonly #ids = new Map<string, Map<string, number>>();
  readonly #places = new Map<string, number>();

  add(arrival: Named, sha256: string): void {
    if (!this.#places.has(arrival.id)) this.#places.set(arrival.id, this.#places.size);
    this.#put(arrival, sha256, arrival.announcedPath);
    this.#put(arrival, sha256, arrival.path);
  }

  /** It is called otherwise now; the name it was announced by stays its own. */
  renamed(arrival: Named, sha256: string, from: string): void {
    if (from !== arrival.announcedPath) this.#take(arrival, sha256, from);
    this.#put(arrival, sha256, arrival.path);
  }

  /** Those that have this name, or were announced by it, the newest first. */
  newestFirst(camera: string, sha256: string, path: string): string[] {
    const ids = this.#ids.get(keyOf(camera, sha256, path)) ?? [];
    return [...ids].sort(([, one], [, other]) => other - one).map(([id]) => id);
  }

  #put({ id, camera }: Named, sha256: string, path: string): void {
    const key = keyOf(camera, sha256, path);
    const ids = this.#ids.get(key) ?? new Map<string, number>();
    this.#ids.set(key, ids.set(id, this.#places.get(id) ?? 0));
  }

  #take({ id, camera }: Named, sha256: string, path: string): void {
    const key = keyOf(camera, sha256, path);
    const ids = this.#ids.get(key);
    ids?.delete(id);
    if (ids?.size === 0) this.#ids.delete(key);
  }
}

/** A hash has one form, so that what stands before it and behind it cannot be mistaken. */
function keyOf(camera: string, sha256: string, path: string): string {
  return `${camera}\n${sha256}\n${path}`;
}
