import { stat } from 'node:fs/promises';

/** Kept this long after it was last asked for, ms: somebody moves over a picture at full size meanwhile. */
const keepMs = 8_000;

/** Holds the one value that was made last, for a few seconds after it was last asked for. */
export class LastKept<Value> {
  #kept: { readonly key: string; readonly value: Value } | null = null;
  #timer: NodeJS.Timeout | undefined;

  /** What is kept under this key, else what `make` gives; kept in its place where `fits` says so. */
  async get(key: string, make: () => Promise<Value>, fits: (value: Value) => boolean): Promise<Value> {
    if (this.#kept?.key !== key) {
      // Let go first: two large ones need not be held at once.
      this.#kept = null;
      const value = await make();
      if (!fits(value)) return value;
      this.#kept = { key, value };
    }
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#kept = null;
    }, keepMs);
    this.#timer.unref();
    return this.#kept.value;
  }
}

/** Names a file as it is now, together with how it is read: one that was written to meanwhile has another name. */
export async function fileKey(path: string, reading: unknown): Promise<string> {
  const { dev, ino, size, mtimeMs } = await stat(path);
  return JSON.stringify([dev, ino, size, mtimeMs, reading ?? null]);
}
