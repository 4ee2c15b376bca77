import { type FileHandle, open } from 'node:fs/promises';
import type { ByteRange } from '../formats/index.ts';

/** Reads ranges of one file; the handle stays valid when the file is renamed. */
export class FileReader {
  readonly #handle: FileHandle;

  private constructor(handle: FileHandle) {
    this.#handle = handle;
  }

  static async open(path: string): Promise<FileReader> {
    return new FileReader(await open(path, 'r'));
  }

  /** Exactly the range, or null where the file is shorter. */
  async read({ offset, length }: ByteRange): Promise<Uint8Array | null> {
    const bytes = new Uint8Array(length);
    let done = 0;
    while (done < length) {
      const { bytesRead } = await this.#handle.read(bytes, done, length - done, offset + done);
      if (bytesRead === 0) return null;
      done += bytesRead;
    }
    return bytes;
  }

  close(): Promise<void> {
    return this.#handle.close();
  }
}
