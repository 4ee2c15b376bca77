/** Renderings on disk, so that a second demo starts at once. A cache: anything in it may be deleted at any time. */
import { mkdir, readFile, rename, unlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

export interface RenderingStore {
  /** The codes kept under this name, or null: nothing there, or not of this length. */
  load(name: string, length: number): Promise<Uint16Array<SharedArrayBuffer> | null>;
  /** Keeps the codes; a full or read-only disk is no reason not to shoot, so failures are swallowed. */
  save(name: string, codes: Uint16Array): Promise<void>;
}

/** `folder` null keeps nothing. Files are raw little-endian 16-bit codes. */
export function createRenderingStore(folder: string | null): RenderingStore {
  if (folder === null) return { load: async () => null, save: async () => {} };
  const pathOf = (name: string): string => join(folder, `${name}.codes`);
  return {
    async load(name, length) {
      const bytes = await readFile(pathOf(name)).catch(() => null);
      if (bytes === null || bytes.length !== length * 2) return null;
      const codes = new Uint16Array(new SharedArrayBuffer(bytes.length));
      new Uint8Array(codes.buffer).set(bytes);
      return codes;
    },
    async save(name, codes) {
      const temporary = `${pathOf(name)}.${process.pid}.part`;
      try {
        await mkdir(folder, { recursive: true });
        await writeFile(temporary, new Uint8Array(codes.buffer, codes.byteOffset, codes.byteLength));
        await rename(temporary, pathOf(name));
      } catch {
        await unlink(temporary).catch(() => {});
      }
    },
  };
}
