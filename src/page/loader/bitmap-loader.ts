import { hideExif } from './hide-exif.ts';

/** A decoded picture somebody is holding; it is not closed before it is let go. */
export interface HeldBitmap {
  readonly bitmap: ImageBitmap;
  letGo(): void;
}

interface Entry {
  readonly loading: Promise<ImageBitmap>;
  bytes: number;
  holders: number;
}

export interface BitmapLoaderOptions {
  /** Decoded bytes kept for pictures that nobody holds at the moment. */
  readonly cacheBytesMax: number;
  /** Decode to this width, pixels as stored; null keeps the size that came. */
  readonly decodeWidthPx: number | null;
}

/** A picture of more bytes than this is not fetched to its end: no rendering for a screen is so large. */
export const downloadBytesMax = 64 * 1024 * 1024;
const bytesPerPixel = 4;

/**
 * Fetches and decodes pictures off the main thread and keeps the latest used within a bound. A bitmap is handed over
 * only when every pixel is decoded, so that drawing it never waits.
 */
export class BitmapLoader {
  readonly #options: BitmapLoaderOptions;
  /** Least recently used first: a Map keeps the order of insertion. */
  readonly #entries = new Map<string, Entry>();

  constructor(options: BitmapLoaderOptions) {
    this.#options = options;
  }

  /** Bytes of every decoded picture, held ones included. */
  get bytes(): number {
    return [...this.#entries.values()].reduce((total, entry) => total + entry.bytes, 0);
  }

  /** The picture at this address, exactly as stored: any Exif orientation in it is left for the caller to apply. */
  async hold(address: string): Promise<HeldBitmap> {
    const entry = this.#entries.get(address) ?? this.#begin(address);
    this.#entries.delete(address);
    this.#entries.set(address, entry);
    entry.holders += 1;
    try {
      const bitmap = await entry.loading;
      return { bitmap, letGo: once(() => this.#letGo(entry)) };
    } catch (error) {
      entry.holders -= 1;
      if (this.#entries.get(address) === entry) this.#entries.delete(address);
      throw error;
    }
  }

  #begin(address: string): Entry {
    const entry: Entry = { loading: this.#fetchBitmap(address), bytes: 0, holders: 0 };
    entry.loading.then(
      (bitmap) => {
        entry.bytes = bitmap.width * bitmap.height * bytesPerPixel;
      },
      () => undefined,
    );
    return entry;
  }

  async #fetchBitmap(address: string): Promise<ImageBitmap> {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(`expected a picture at ${address}, got ${answer.status}`);
    const announced = Number(answer.headers.get('content-length') ?? 0);
    if (announced > downloadBytesMax)
      throw new Error(`expected a picture of a screen’s size at ${address}, got ${announced} bytes`);
    const bytes = new Uint8Array(await answer.arrayBuffer());
    hideExif(bytes);
    const width = this.#options.decodeWidthPx;
    return createImageBitmap(
      new Blob([bytes], { type: answer.headers.get('content-type') ?? '' }),
      width === null ? {} : { resizeWidth: width, resizeQuality: 'high' },
    );
  }

  #letGo(entry: Entry): void {
    entry.holders -= 1;
    for (const [address, oldest] of this.#entries) {
      if (this.bytes <= this.#options.cacheBytesMax) return;
      if (oldest.holders > 0) continue;
      this.#entries.delete(address);
      oldest.loading.then((bitmap) => bitmap.close()).catch(() => undefined);
    }
  }
}

function once(act: () => void): () => void {
  let done = false;
  return () => {
    if (!done) act();
    done = true;
  };
}
