/** Kept arrivals by camera and hash: what is asked of each file that comes. */
export class KeptByHash {
  readonly #ids = new Map<string, string[]>();

  add(camera: string, sha256: string, arrival: string): void {
    const key = keyOf(camera, sha256);
    const ids = this.#ids.get(key);
    if (ids === undefined) this.#ids.set(key, [arrival]);
    else ids.push(arrival);
  }

  newestFirst(camera: string, sha256: string): string[] {
    return [...(this.#ids.get(keyOf(camera, sha256)) ?? [])].reverse();
  }
}

function keyOf(camera: string, sha256: string): string {
  return `${camera}\n${sha256}`;
}
