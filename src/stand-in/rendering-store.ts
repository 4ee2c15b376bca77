/** Packed renderings on disk, so that a second demo starts at once. A cache: anything in it may be deleted at any time. */
import { mkdir, readFile, rename, unlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

export interface RenderingStore {
  /** The bytes kept under this name, or null. */
  load(name: string): Promise<Uint8Array | null>;
  /** Keeps the bytes; a full or read-only disk is no reason not to shoot, so failures are swallowed. */
  save(name: string, bytes: Uint8Array): Promise<void>;
}

export function createRenderingStore(folder: string): RenderingStore {
  const pathOf = (name: string): string => join(folder, `${name}.rendering`);
  return {
    load: (name) => readFile(pathOf(name)).catch(() => null),
    async save(name, bytes) {
      const temporary = `${pathOf(name)}.${process.pid}.part`;
      try {
        await mkdir(folder, { recursive: true });
        await writeFile(temporary, bytes);
        await rename(temporary, pathOf(name));
      } catch {
        await unlink(temporary).catch(() => {});
      }
    },
  };
}
